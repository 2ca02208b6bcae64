// The sheets: each on paper as it prints, with its tables and its files.
import { readFile } from "node:fs/promises";
import { expect, test } from "./fixture.js";
import { leverBox, openBench } from "./bench.js";
import { expectAccessible, shoot } from "./look.js";

const kinds = [
  ["tape", "Tape sheet"],
  ["order", "Order sheet"],
  ["mock-up", "Mock-up sheet"],
  ["cut", "Cut sheet"],
  ["strip", "Fill strip"],
  ["weld", "Weld sheet"],
];

const papers = (page) => page.locator(".paper-page svg");

/** Opens a sheet of the first invented car and waits until it is worked out. */
async function openSheet(page, word, title) {
  await page.goto(`#sheets/${word}`);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(title);
  await worked(page);
}

async function moveSeam(page) {
  await openBench(page);
  const seam = leverBox(page, "Seam move");
  await seam.fill("2 in");
  await seam.press("Enter");
}

async function worked(page) {
  await expect(page.locator(".sheet-told")).toHaveText("", { timeout: 30_000 });
  await expect(papers(page).first()).toBeVisible();
}

for (const [word, title] of kinds) {
  test(`${word}: on paper, as a table, and accessible`, async ({ page }) => {
    // Without a moved seam there is no strip to list.
    if (word === "strip") await moveSeam(page);
    await openSheet(page, word, title);
    await expect(page).toHaveTitle(`${title} · Coupe, body on frame (invented) · Lip to Rail`);
    await expect(papers(page).first()).toContainText("Coupe, body on frame");
    await expect(page.getByRole("link", { name: title })).toHaveAttribute("aria-current", "page");
    await page.getByText("Its tables, to read on the screen").click();
    await expect(page.locator(".sheet-tables table").first()).toBeVisible();
    await shoot(page, `sheet-${word}`);
    await expectAccessible(page);
  });
}

for (const [paper, wide, tall] of [
  ["Letter", 612, 792],
  ["A4", 595, 842],
]) {
  test(`what is printed on ${paper} is the sheet alone, at its true size`, async ({ page, isMobile }) => {
    test.skip(isMobile, "only a desk has a printer");
    await openSheet(page, "cut", "Cut sheet");
    await page.getByRole("radio", { name: paper, exact: true }).check();
    await worked(page);
    const count = await papers(page).count();
    const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString("latin1");
    const boxes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]/g)];
    expect(boxes).toHaveLength(count);
    // A printer's point is 1/72 in; the browser lays pages out in whole CSS pixels, 3/4 of one.
    for (const [, w, h] of boxes) {
      const [short, long] = [Number(w), Number(h)].sort((a, b) => a - b);
      expect(Math.abs(short - wide)).toBeLessThanOrEqual(1);
      expect(Math.abs(long - tall)).toBeLessThanOrEqual(1);
    }
    await page.emulateMedia({ media: "print" });
    for (const gone of ["header", ".foot", ".sheets-head", ".sheet-tables", "figcaption"]) {
      await expect(page.locator(gone).first()).toBeHidden();
    }
    const shown = await papers(page).first().evaluate((svg) => {
      const { width } = svg.getBoundingClientRect();
      return (width / 96) * 25.4 - svg.viewBox.baseVal.width;
    });
    // A CSS millimeter is one of paper; the browser lays out in 1/64 of a CSS pixel.
    expect(Math.abs(shown)).toBeLessThan(0.01);
  });
}

test("tables, pages and patterns are saved under the name of car and sheet", async ({ page }) => {
  await moveSeam(page);
  await openSheet(page, "strip", "Fill strip");
  const saved = async (name) => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name }).first().click()]);
    return [download.suggestedFilename(), await readFile(await download.path(), "utf8")];
  };
  const [csvName, csv] = await saved(/CSV/);
  expect(csvName).toBe("coupe-body-on-frame-invented-strip.csv");
  expect(csv).toContain(",");
  const [dxfName, dxf] = await saved(/DXF/);
  expect(dxfName).toBe("coupe-body-on-frame-invented-strip.dxf");
  expect(dxf).toContain("$INSUNITS");
  const [svgName, svg] = await saved(/SVG/);
  expect(svgName).toMatch(/^coupe-body-on-frame-invented-strip(-1)?\.svg$/);
  expect(svg).toMatch(/width="\d+(\.\d+)?mm"/);
});

test("a strip of a seam that stays is no pattern, and that is told", async ({ page }) => {
  await openSheet(page, "strip", "Fill strip");
  await page.getByRole("button", { name: /DXF/ }).click();
  await expect(page.locator(".told")).toContainText("no seam is moved");
});

test("units and paper are kept, and change the sheet", async ({ page }) => {
  await openSheet(page, "order", "Order sheet");
  await expect(papers(page).first()).toContainText(/\d in/);
  await page.getByLabel("Lengths in").selectOption("millimeters");
  await worked(page);
  await expect(papers(page).first()).toContainText(/\d mm/);
  await page.getByRole("radio", { name: "A4" }).check();
  await worked(page);
  await expect.poll(() => page.evaluate(() => localStorage.getItem("lip-to-rail.desk"))).toContain("paper a4");
  await page.reload();
  await worked(page);
  await expect(page.getByRole("radio", { name: "A4" })).toBeChecked();
  expect(await papers(page).first().getAttribute("viewBox")).toBe("0 0 210 297");
});

test("nothing but the paper scrolls sideways", async ({ page }) => {
  for (const width of [320, 390, 1280]) {
    await page.setViewportSize({ width, height: 800 });
    await openSheet(page, "weld", "Weld sheet");
    const beyond = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(beyond).toBe(0);
  }
});
