// What is otherwise in Firefox: how its driver types, and what runs there.

/** The tests that run in Firefox too: each page, every way to work a lever, keeping, links. Its driver takes some five
 * times as long as Chromium's, hears of no download, and sets neither paper nor a page without JavaScript. Dark colors and
 * less motion are night.spec.js's. */
export const RUN_THERE = new RegExp(
  [
    "a page that starts does not say",
    "a page whose module is missing",
    "from page to page and back",
    "Backspacing moves by keyboard",
    "a number is typed as a fraction",
    "Backspacing is dragged in the picture",
    "a handle follows the arrow keys",
    "steps are taken back and done again",
    "a reload keeps the work",
    "a memory that fills up later",
    "no room to put it aside",
    "two tabs at once",
    "a link that is damaged",
    "the address follows the car",
    "the section is swung by slider",
    "a lever moves picture and sentence",
    "every chapter's numbers follow",
    "units and paper are kept",
  ].join("|"),
);

/** The fields that a visitor types into; the rest are set. */
const TYPED = 'textarea, input:not([type]), input[type="text"], input[type="number"], input[type="search"]';

/** Has `fill` type key by key: the driver writes a field's text from script, which Firefox does not take for typing, so
 * that it never tells the page of a change. */
export function typeByKeys(page) {
  const fields = page.locator("body").constructor.prototype;
  if (fields.isTyping) return;
  fields.isTyping = true;
  const { fill } = fields;
  fields.fill = async function (text, options) {
    if (!(await this.evaluate((field, typed) => field.matches(typed), TYPED))) return fill.call(this, text, options);
    await this.selectText(options);
    await this.press("Delete");
    await this.pressSequentially(text, options);
  };
}
