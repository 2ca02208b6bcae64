// What every browser test starts from: `test` opens the page as a visitor
// would, and fails if the page complained or reached outside itself.
import { test as base, expect } from "@playwright/test";
import { typeByKeys } from "./firefox.js";
import { startSite } from "./site.js";

export { expect };

export const test = base.extend({
  site: [
    async ({}, use) => {
      const site = await startSite();
      await use(site.address);
      site.stop();
    },
    { scope: "worker" },
  ],

  baseURL: async ({ site }, use) => use(site),

  // Hears every page the test opens, so no test has to remember to listen.
  context: async ({ context, site, browserName }, use) => {
    if (browserName === "firefox") context.on("page", typeByKeys);
    const faults = [];
    context.on("console", (message) => {
      if (message.type() === "error") faults.push(`console: ${message.text()}`);
    });
    context.on("weberror", (error) => faults.push(`uncaught: ${error.error()}`));
    context.on("request", (request) => {
      const address = request.url();
      const own = [site, "data:", "blob:"].some((start) => address.startsWith(start));
      if (!own) faults.push(`foreign request: ${address}`);
    });
    context.on("requestfailed", (request) => {
      const why = request.failure().errorText;
      // The visitor left before it arrived; nobody was refused anything.
      if (!["net::ERR_ABORTED", "NS_BINDING_ABORTED"].includes(why)) faults.push(`failed request: ${request.url()} (${why})`);
    });
    context.on("response", (response) => {
      if (response.status() >= 400) faults.push(`${response.status()}: ${response.url()}`);
    });
    await use(context);
    expect(faults, "the page must load all it needs and complain of nothing").toEqual([]);
  },
});
