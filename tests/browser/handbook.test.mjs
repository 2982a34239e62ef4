// All pages of the handbook in Chromium, desktop and phone, light and dark, and as a printer sees them. HANDBOOK is their
// address, PAGES the folder that is served there, CHROMIUM the browser; SCREENSHOTS a folder for pictures to look at.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readdir, readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { chromium } from "playwright-core";

const { HANDBOOK, PAGES, CHROMIUM, SCREENSHOTS } = process.env;
const AXE = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const FORMS = (await readdir(PAGES, { recursive: true })).filter((name) => name.endsWith(".html"))
  .map((name) => name.slice(0, -".html".length)).sort();
const WIDTHS = { desktop: 1280, phone: 390 };
const PRINTED_WIDTH = 680; // [px], of the text on A4 with the browser's usual margins
let browser;

// What somebody who looks at the page sees: all of it, for the eye and not for the test.
const shot = async (page, form, kind) => {
  if (SCREENSHOTS) await page.screenshot({ path: `${SCREENSHOTS}/${form.replaceAll("/", "-")}-${kind}.png`, fullPage: true });
};

before(async () => { browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu"] }); });
after(() => browser?.close());

// What reaches beyond the page without standing in something that scrolls.
const cutOff = () => [...document.querySelectorAll("article :is(img, pre, table, math, p, code)")].filter((one) => {
  for (let around = one; around !== document.body; around = around.parentElement)
    if (["auto", "scroll"].includes(getComputedStyle(around).overflowX)) return false;
  return one.getBoundingClientRect().right > innerWidth + 1;
}).map((one) => one.outerHTML.slice(0, 120));

// How bright the page's ground is, 0 to 1.
const ground = () => Math.max(...getComputedStyle(document.body).backgroundColor.match(/[\d.]+/g).slice(0, 3).map(Number)) / 255;

// Pictures that are not drawn on white: their lines are dark.
const onWhite = () => [...document.querySelectorAll("article img")]
  .filter((one) => getComputedStyle(one).backgroundColor !== "rgb(255, 255, 255)").map((one) => one.src);

// Sketches in tables that are not whole: nobody scrolls a cell.
const croppedInTables = () => [...document.querySelectorAll("article td img")]
  .filter((one) => one.getBoundingClientRect().right > one.closest("td").getBoundingClientRect().right + 1).map((one) => one.src);

// Words that reach beyond the picture.
const beyond = () => {
  const sheet = document.documentElement.getBoundingClientRect();
  return [...document.querySelectorAll("text")].filter((one) => {
    const box = one.getBoundingClientRect();
    return box.left < sheet.left - 1 || box.right > sheet.right + 1 || box.top < sheet.top - 1 || box.bottom > sheet.bottom + 1;
  }).map((one) => one.textContent);
};

for (const colorScheme of ["light", "dark"]) for (const [size, width] of Object.entries(WIDTHS))
  test(`no findings of axe-core and nothing cut off at ${size} size, ${colorScheme}`, async () => {
    const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
    for (const form of FORMS) {
      await page.goto(`${HANDBOOK}/${form}.html`);
      assert.equal(await page.evaluate(ground) < 0.2, colorScheme === "dark", form);
      assert.deepEqual(await page.evaluate(onWhite), [], form);
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true, form);
      assert.deepEqual(await page.evaluate(cutOff), [], form);
      assert.deepEqual(await page.evaluate(croppedInTables), [], form);
      await shot(page, form, `${size}-${colorScheme}`);
      if ((size === "desktop") !== (colorScheme === "light")) continue; // each size and each scheme once for axe-core
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

// Neither the service's own sheets nor charts and sketches may need a font that not every machine has.
test("no words of a picture are cut off", async () => {
  const page = await browser.newPage();
  const names = (await readdir(`${PAGES}/_images`)).filter((name) => name.endsWith(".svg"));
  assert.ok(names.length > 30);
  for (const name of names) {
    await page.goto(`${HANDBOOK}/_images/${name}`);
    assert.deepEqual(await page.evaluate(beyond), [], name);
  }
  await page.close();
});

test("a reader in the dark prints on white", async () => {
  const page = await browser.newPage({ colorScheme: "dark" });
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  for (const form of FORMS) {
    await page.goto(`${HANDBOOK}/${form}.html`);
    assert.equal(await page.evaluate(ground), 1, form);
  }
  await page.close();
});
