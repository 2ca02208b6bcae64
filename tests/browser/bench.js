// The Bench as the tests see it: its levers, its picture, its gap list.
import { expect } from "./fixture.js";

/** Opens the page and waits until it draws; on a phone it is turned to the left side. */
export async function openBench(page, address = "") {
  await page.goto(address);
  await expect(page.locator("#rear-body path").first()).toBeAttached();
  const right = page.getByRole("radio", { name: "Right" });
  if (await right.isChecked()) await page.getByRole("radio", { name: "Left" }).check();
}

/** Puts another of the cars in the menu on the bench. */
export async function chooseCar(page, name) {
  await page.locator(".car-button").click();
  await page.locator("#cars").getByRole("button", { name }).click();
}

/** A lever's slider. */
export function lever(page, name) {
  return page.locator('input[type="range"]').and(page.getByRole("slider", { name, exact: true }));
}

/** A lever's number box. */
export function leverBox(page, name) {
  return page.locator(".dial").getByRole("textbox", { name, exact: true });
}

/** Types into a lever's number box. */
export async function type(page, name, text) {
  const box = leverBox(page, name);
  await box.fill(text);
  await box.press("Enter");
  await box.blur();
}

/** Everything that the picture draws, as text, without what the page marks its places with. */
export async function pictureOf(page) {
  const drawn = await page.locator(".picture svg.scene").innerHTML();
  return drawn.replaceAll(/<!--.*?-->/g, "");
}

/** Opens one of the panels at the end of the page. */
export function openPanel(page, name) {
  return page.locator("summary").filter({ hasText: new RegExp(`^\\s*${name}`) }).click();
}

/** Everything that the gap list says. */
export function gapList(page) {
  return page.locator(".gaps").innerText();
}

/** A row of the gap list. */
export function gapRow(page, side, surface) {
  const rows = page.getByRole("table", { name: `${side} side` }).getByRole("row");
  return rows.filter({ has: page.getByRole("rowheader", { name: surface }) });
}

/** Where an element's middle is on the screen. */
export async function middle(locator) {
  await locator.scrollIntoViewIfNeeded();
  const { x, y, width, height } = await locator.boundingBox();
  return { x: x + width / 2, y: y + height / 2 };
}

/** Plays, and requires that the axle stands in a pose for a while and does not glide. */
export async function expectPoses(page) {
  const heave = page.locator("#heave");
  await page.getByRole("button", { name: "Play travel" }).click();
  await expect(heave).toHaveAttribute("aria-valuetext", / up$/);
  const top = await heave.getAttribute("aria-valuetext");
  await page.waitForTimeout(500);
  await expect(heave).toHaveAttribute("aria-valuetext", top);
}
