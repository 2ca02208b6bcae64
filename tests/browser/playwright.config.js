// Where and how the browser tests run: at a desk and on a phone, on the
// browsers the machine has.
import { defineConfig } from "@playwright/test";
import { RUN_THERE } from "./firefox.js";

const chromium = {
  browserName: "chromium",
  launchOptions: {
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    // Chromium refuses its sandbox to root.
    chromiumSandbox: process.getuid?.() !== 0,
    // Nothing is asked of the network that the page did not ask for.
    args: [
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  },
};

// The Firefox that the machine has is driven by its own protocol, WebDriver BiDi.
const firefox = {
  browserName: "firefox",
  channel: "moz-firefox",
  launchOptions: { executablePath: process.env.FIREFOX ?? "/usr/bin/firefox-esr" },
};

// What the driver cannot set in Firefox, Firefox is set to.
const night = {
  ...firefox,
  launchOptions: {
    ...firefox.launchOptions,
    firefoxUserPrefs: { "layout.css.prefers-color-scheme.content-override": 0, "ui.prefersReducedMotion": 1 },
  },
};

// Their driver takes some five times as long as Chromium's.
const slow = { timeout: 180_000, expect: { timeout: 20_000 } };

const desk = { viewport: { width: 1440, height: 900 } };

const NIGHT = "night.spec.js";

export default defineConfig({
  testDir: ".",
  outputDir: "results",
  forbidOnly: Boolean(process.env.CI),
  fullyParallel: true,
  // The access checks read every element of a page with all its panels open; a busy machine takes its time.
  timeout: 90_000,
  workers: 2,
  // On a busy machine a click may come between two frames of a page that is still being laid out. What fails twice is a
  // fault; what failed once is listed as flaky.
  retries: 1,
  reporter: "list",
  use: { trace: "retain-on-failure" },
  projects: [
    { name: "desktop", testIgnore: NIGHT, use: { ...chromium, ...desk } },
    {
      name: "phone",
      testIgnore: NIGHT,
      use: {
        ...chromium,
        viewport: { width: 390, height: 844 },
        deviceScaleFactor: 2,
        hasTouch: true,
        isMobile: true,
      },
    },
    {
      name: "firefox-night",
      testMatch: NIGHT,
      ...slow,
      use: { ...night, viewport: { width: 390, height: 844 } },
    },
    { name: "firefox", testIgnore: NIGHT, grep: RUN_THERE, ...slow, use: { ...firefox, ...desk } },
  ],
});
