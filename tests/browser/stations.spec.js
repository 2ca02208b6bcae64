// The wheelhouse stations: what the tape stands for, a table of one's own, a spreadsheet's table.
import { expect, test } from "./fixture.js";
import { gapList, openBench, openPanel } from "./bench.js";
import { expectAccessible, shoot } from "./look.js";

const cell = (page, name) => page.getByRole("textbox", { name, exact: true });
const side = (page, name) => page.locator(".side-stations").filter({ hasText: name });

/** Opens the left side's stations. */
async function openStations(page) {
  await openBench(page);
  await openPanel(page, "Wheelhouse stations");
  await page.locator(".side-stations > summary").first().click();
}

/** Opens them and takes them for the side's own table. */
async function ownTable(page) {
  await openStations(page);
  await page.getByRole("button", { name: "Edit these stations" }).click();
  await expect(cell(page, "Angle of station 1")).toBeFocused();
}

async function type(page, name, text) {
  await cell(page, name).fill(text);
  await cell(page, name).press("Enter");
}

/** Pastes a text as the browser does. */
function paste(locator, text) {
  return locator.evaluate((box, text) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", text);
    box.focus();
    box.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}

test("the tape's stations are shown, and can only be read", async ({ page }) => {
  await openStations(page);
  const left = side(page, "Left side");
  const columns = left.getByRole("columnheader", { name: /behind|ahead|straight up/ });
  await expect(columns).toHaveCount(13);
  await expect(columns.first()).toHaveText("90° behind");
  await expect(left.getByRole("rowheader", { name: "Tub wall, low" })).toBeVisible();
  await expect(left.locator(".stations input")).toHaveCount(0);
  const rows = await left.getByRole("rowheader").count();
  await left.getByLabel("Points of the rounded corners").selectOption({ label: "every point" });
  expect(await left.getByRole("rowheader").count()).toBeGreaterThan(rows);
  await expect(page.locator(".panel > summary").filter({ hasText: "stations" })).toContainText("from the tape readings");
});

test("an edited cell changes the gaps, and the step can be taken back", async ({ page }) => {
  await ownTable(page);
  const before = await gapList(page);
  await type(page, "Tub wall, low straight up out", "22 1/8");
  await expect(cell(page, "Tub wall, low straight up out")).toHaveValue("22 1/8");
  await expect.poll(() => gapList(page)).not.toBe(before);
  await page.getByRole("button", { name: "Undo: Tub wall, low, straight up, left" }).click();
  await expect.poll(() => gapList(page)).toBe(before);
  await page.getByRole("button", { name: "Undo: Own stations, left" }).click();
  await expect(page.getByRole("button", { name: "Edit these stations" })).toBeVisible();
});

test("cells pasted from a spreadsheet fill to the right and down", async ({ page }) => {
  await ownTable(page);
  const before = await gapList(page);
  await paste(cell(page, "Tub wall, low straight up out"), "22.25\t4\t\"22 1/4\"\"\"\n");
  await expect(cell(page, "Tub wall, low straight up out")).toHaveValue("22 1/4");
  await expect(cell(page, "Tub wall, low 15° ahead out")).toHaveValue("22 1/4");
  await expect(page.getByText("3 cells were pasted.")).toBeVisible();
  await expect.poll(() => gapList(page)).not.toBe(before);
});

test("a whole table goes to a spreadsheet and comes back", async ({ page }) => {
  await ownTable(page);
  const box = page.getByLabel("Paste a whole table").first();
  await page.getByRole("button", { name: "Copy as a table" }).first().click();
  const table = await box.inputValue();
  expect(table.split("\n")[0]).toMatch(/^angle\tsurface to the next point\t-90\t\t-75\t/);
  const before = await gapList(page);
  const rows = table.trimEnd().split("\n").map((row) => row.split("\t"));
  // The tub an inch farther in, and a decimal comma as some spreadsheets write it.
  const moved = rows.map((row, at) =>
    at > 1 && row[0].startsWith("Tub wall")
      ? row.map((text, column) => (column > 1 && column % 2 === 0 ? String(Number(text) - 1).replace(".", ",") : text))
      : row,
  );
  await box.fill(moved.map((row) => row.slice(0, 2).concat(row.slice(2).map((text) => (text.includes(",") ? `${text} in` : text))).join(";")).join("\n"));
  await page.getByRole("button", { name: "Read this table" }).first().click();
  await expect(page.getByText("Read: 13 stations of")).toBeVisible();
  await expect.poll(() => gapList(page)).not.toBe(before);
  await box.fill(table);
  await page.getByRole("button", { name: "Read this table" }).first().click();
  await expect.poll(() => gapList(page)).toBe(before);
});

test("text that is no table is told in words and stays in its box", async ({ page }) => {
  await openStations(page);
  const box = page.getByLabel("Paste a whole table").first();
  await box.fill("to whom it may concern");
  await page.getByRole("button", { name: "Read this table" }).first().click();
  await expect(page.getByText("The first row has no angle.")).toBeVisible();
  await expect(box).toHaveValue("to whom it may concern");
});

test("a bad cell is named, kept over a reload, and the last sound table stays", async ({ page }) => {
  await ownTable(page);
  await type(page, "Tub wall, low straight up out", "22 1/8");
  const sound = await gapList(page);
  await type(page, "Tub wall, low 30° behind out", "abc");
  const bad = cell(page, "Tub wall, low 30° behind out");
  await expect(bad).toHaveValue("abc");
  await expect(bad).toHaveAttribute("aria-invalid", "true");
  await expect(bad).toHaveAccessibleDescription(/Tub wall, low, 30° behind, out: .*“abc”.*such as/);
  expect(await gapList(page)).toBe(sound);
  await expect(page.getByText(/One place of this table is to be mended/)).toBeVisible();
  await page.waitForTimeout(400);
  await page.reload();
  await openPanel(page, "Wheelhouse stations");
  await page.locator(".side-stations > summary").first().click();
  await expect(bad).toHaveValue("abc");
  expect(await gapList(page)).toBe(sound);
  await page.getByRole("link", { name: "Tub wall, low, 30° behind, out" }).click();
  await expect(bad).toBeFocused();
  await bad.fill("22 1/2");
  await bad.press("Enter");
  await expect(bad).not.toHaveAttribute("aria-invalid");
  await expect(page.getByText(/to be mended/)).toBeHidden();
});

test("a table that makes no sense is told the same way", async ({ page }) => {
  await ownTable(page);
  await type(page, "Angle of station 2", "80 ahead");
  await expect(page.getByRole("link", { name: "Angle of station 3 (60° behind)" })).toBeVisible();
  await type(page, "Angle of station 2", "75 behind");
  await page.getByRole("radio", { name: "Seam Tub wall, low" }).check();
  await expect(page.getByRole("listitem").filter({ hasText: "is not on the roof" })).toBeVisible();
});

test("back to the tape says what is lost, and undo brings it back", async ({ page }) => {
  await openStations(page);
  const before = await gapList(page);
  await page.getByRole("button", { name: "Edit these stations" }).click();
  await type(page, "Tub wall, low straight up out", "22 1/8");
  const edited = await gapList(page);
  await page.getByRole("button", { name: "Back to the tape readings" }).first().click();
  await expect(page.getByText(/Its own 13 stations of \d+ points are dropped; Undo brings them back/)).toBeVisible();
  await expect.poll(() => gapList(page)).toBe(before);
  await page.getByRole("button", { name: "Undo: Back to the tape, left" }).click();
  await expect.poll(() => gapList(page)).toBe(edited);
  await expect(cell(page, "Tub wall, low straight up out")).toHaveValue("22 1/8");
});

test("keys alone reach and change everything", async ({ page }) => {
  await openBench(page);
  await page.locator("summary").filter({ hasText: "Wheelhouse stations" }).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.keyboard.press("Tab");
  await expect(page.getByRole("button", { name: "Edit these stations" })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(cell(page, "Angle of station 1")).toBeFocused();
  for (const key of ["ArrowDown", "ArrowRight", "ArrowRight"]) await page.keyboard.press(key);
  await expect(cell(page, "Quarter lip, edge 75° behind out")).toBeFocused();
  await page.keyboard.type("36.5");
  await page.keyboard.press("Enter");
  await expect(cell(page, "Quarter lip, edge 75° behind out")).toHaveValue("36 1/2");
  await expect(cell(page, "Quarter lip 1 75° behind out")).toBeFocused();
  await page.keyboard.type("x");
  await page.keyboard.press("Escape");
  await expect(cell(page, "Quarter lip 1 75° behind out")).not.toHaveValue("x");
  const add = page.getByRole("button", { name: "Add a point" }).first();
  await add.focus();
  await page.keyboard.press("Enter");
  await expect(cell(page, "Quarter lip 2 75° behind out")).toBeFocused();
  await page.keyboard.press("Control+z");
  await expect(cell(page, "Quarter lip 2 75° behind out")).toHaveCount(0);
});

test("stations and points come and go", async ({ page }) => {
  await ownTable(page);
  const left = side(page, "Left side");
  const rows = await left.getByRole("rowheader").count();
  await page.getByRole("button", { name: "Add a station" }).first().click();
  await expect(cell(page, "Angle of station 2")).toHaveValue("82.5° behind");
  await page.getByRole("button", { name: "Remove the station" }).first().click();
  await expect(cell(page, "Angle of station 2")).toHaveValue("75° behind");
  await page.getByRole("button", { name: "Remove the point" }).first().click();
  await expect(page.getByText("Use a cell of the point that is to go first")).toBeVisible();
  await cell(page, "Tub corner 1 straight up out").focus();
  await expect(left.getByText("Tub corner 1, straight up")).toBeVisible();
  await page.getByRole("button", { name: "Remove the point" }).first().click();
  await expect(left.getByRole("rowheader")).toHaveCount(rows - 1);
});

/** A table small enough to look at every box of it. */
const small = `angle\t\t-30\t\t0\t\t30\t
\tquarter lip\t37\t13\t37\t13\t37\t13
\tquarter lip\t36\t13\t36\t13\t36\t13
\touter half\t36\t14\t36\t14\t36\t14
\troof\t36\t17 1/2\t36\t18\t36\t17 1/2
seam\troof\t30\t18\t30\t18 1/2\t30\t18
\ttub wall\t24\t18\t24\t18 1/2\t24\t18
\t\t24\t4\t24\t4\t24\tfour`;

test("a small table with a fault is accessible", async ({ page, isMobile }) => {
  test.slow();
  await openStations(page);
  await page.getByLabel("Paste a whole table").first().fill(small);
  await page.getByRole("button", { name: "Read this table" }).first().click();
  const bad = cell(page, "Tub wall, low 30° ahead radius");
  await expect(bad).toHaveAttribute("aria-invalid", "true");
  await expectAccessible(page);
  if (isMobile) {
    const targets = [bad, page.getByRole("radio", { name: "Seam Seam" }), page.getByRole("combobox", { name: "Surface to the next point Seam" })];
    for (const target of targets) expect((await target.boundingBox()).height).toBeGreaterThanOrEqual(44);
  }
});

test("the open panel is seen, and nothing scrolls sideways but the sheet", async ({ page }) => {
  await openStations(page);
  await page.locator(".side-stations").first().scrollIntoViewIfNeeded();
  await shoot(page, "stations-tape", {});
  await page.getByRole("button", { name: "Edit these stations" }).click();
  await type(page, "Quarter lip, edge 75° behind out", "thirty-six");
  await cell(page, "Seam 75° behind radius").focus();
  await shoot(page, "stations-own", {});
  const beyond = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(beyond).toBe(0);
});
