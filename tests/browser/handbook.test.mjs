// Pages of each form of the handbook in Chromium, desktop and phone, and as a printer sees them. HANDBOOK is their address,
// CHROMIUM the browser.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { chromium } from "playwright-core";

const { HANDBOOK, CHROMIUM } = process.env;
const AXE = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const FORMS = ["index", "terms", "tutorials/vendor", "calculations/hydraulics", "validation/cases/friction", "validation/routes",
  "reference/client", "search"];
const WIDTHS = { desktop: 1280, phone: 390 };
const PRINTED_WIDTH = 680; // [px], of the text on A4 with the browser's usual margins
let browser;

before(async () => { browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu"] }); });
after(() => browser?.close());

// What reaches beyond the page without standing in something that scrolls.
const cutOff = () => [...document.querySelectorAll("article :is(img, pre, table, math, p, code)")].filter((one) => {
  for (let around = one; around !== document.body; around = around.parentElement)
    if (["auto", "scroll"].includes(getComputedStyle(around).overflowX)) return false;
  return one.getBoundingClientRect().right > innerWidth + 1;
}).map((one) => one.outerHTML.slice(0, 120));

for (const [size, width] of Object.entries(WIDTHS))
  test(`no findings of axe-core and nothing cut off at ${size} size`, async () => {
    const page = await browser.newPage({ viewport: { width, height: 900 } });
    for (const form of FORMS) {
      await page.goto(`${HANDBOOK}/${form}.html`);
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true, form);
      assert.deepEqual(await page.evaluate(cutOff), [], form);
      await page.evaluate(AXE);
      const { violations } = await page.evaluate(() => globalThis.axe.run());
      assert.deepEqual(violations.map((one) => `${one.id}: ${one.nodes[0].html.slice(0, 200)}`), [], form);
    }
    await page.close();
  });

test("on paper nothing is cut off and nothing lies over the text", async () => {
  const page = await browser.newPage({ viewport: { width: PRINTED_WIDTH, height: 900 } });
  await page.emulateMedia({ media: "print" });
  for (const form of FORMS) {
    await page.goto(`${HANDBOOK}/${form}.html`);
    assert.deepEqual(await page.evaluate(cutOff), [], form);
    assert.equal(await page.locator(".skip-to-content").isVisible(), false, form);
    const scrolls = await page.locator("article .table-wrapper, article .formula, article pre").evaluateAll((all) =>
      all.filter((one) => one.scrollWidth > one.clientWidth + 1).map((one) => one.innerText.slice(0, 60)));
    assert.deepEqual(scrolls, [], form);
  }
  await page.close();
});
