// Looking at the page: pictures for people, and the accessibility check that
// needs no person.
import { fileURLToPath } from "node:url";
import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "./fixture.js";

const shots = fileURLToPath(new URL("shots/", import.meta.url));

/** Saves the page, light and dark, as shots/<project>-<name>-<scheme>.png. */
export async function shoot(page, name, options = { fullPage: true }) {
  for (const colorScheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme });
    const path = `${shots}${test.info().project.name}-${name}-${colorScheme}.png`;
    await page.screenshot({ ...options, path, animations: "disabled" });
  }
  await page.emulateMedia({ colorScheme: null });
}

/** What axe finds against WCAG 2.2 AA in the page as it stands. */
export async function violationsOf(page) {
  const { violations } = await new AxeBuilder({ page })
    .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"])
    .analyze();
  return violations.flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => `${id} at ${target}: ${failureSummary}`));
}

/** Requires what axe can see of WCAG 2.2 AA, in light and in dark. */
export async function expectAccessible(page) {
  for (const colorScheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme });
    expect(await violationsOf(page), colorScheme).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: null });
}
