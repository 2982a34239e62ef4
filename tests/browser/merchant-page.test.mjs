// The merchant's page in Chromium, desktop and phone, against a running service: SERVICE and PAGE are their addresses,
// CHROMIUM the browser. SCREENSHOTS, if set, is a folder for pictures. Where the service lets no other origins read its
// answers (CROSS_ORIGIN=added), the header that does is added on the way.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readFile } from "node:fs/promises";
import { after, before, beforeEach, afterEach, test } from "node:test";
import { chromium } from "playwright-core";

const { SERVICE, PAGE, CHROMIUM, SCREENSHOTS, CROSS_ORIGIN } = process.env;
const AXE = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const SIZES = { desktop: { width: 1280, height: 900 }, phone: { width: 360, height: 740 } };
const QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync"];
let browser, context, page, errors;

before(async () => { browser = await chromium.launch({ executablePath: CHROMIUM, args: QUIET }); });
after(() => browser?.close());
beforeEach(async () => {
  errors = [];
  context = await browser.newContext({ viewport: SIZES.desktop });
  page = await context.newPage();
  page.on("pageerror", (error) => errors.push(String(error)));
});
afterEach(async () => {
  await context.close();
  assert.deepEqual(errors, []);
});

async function open({ lang = "en-GB", prices = true } = {}) {
  if (CROSS_ORIGIN === "added") {
    await page.route(`${SERVICE}/**`, async (route) => {
      const answer = await route.fetch();
      await route.fulfill({ response: answer, headers: { ...answer.headers(), "access-control-allow-origin": "*" } });
    });
  }
  await page.goto(`${PAGE}/${lang}${prices ? "" : "-without-prices"}.html`);
  await page.locator("#result").waitFor();
}

const cells = (row) => page.locator("#ranges tbody tr").nth(row).locator("td").allInnerTexts();
const answered = async (act) => {
  const answer = page.waitForResponse((one) => one.url().includes("/v1/estimates"));
  await act();
  return answer;
};

async function faults() {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => globalThis.axe.run());
  return violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(" ").slice(0, 300)}`);
}

async function picture(name) {
  if (SCREENSHOTS) await page.screenshot({ path: `${SCREENSHOTS}/${name}.png`, fullPage: true });
}

for (const [size, viewport] of Object.entries(SIZES)) {
  test(`an estimate at ${size} size, from another origin, without findings of axe-core`, async () => {
    await page.setViewportSize(viewport);
    await open();
    const [low, likely, high] = (await cells(0)).map((text) => parseInt(text.replace(/\D/g, ""), 10));
    assert.ok(200 < low && low <= likely && likely <= high && high < 1500, `${low} ${likely} ${high}`);
    assert.match((await cells(5))[1], /€/);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true);
    await page.locator("summary").click();
    assert.deepEqual(await faults(), []);
    await picture(`${size}-area`);
    await answered(() => page.getByLabel("L-shape").check());
    await page.locator("#sketch polyline").first().waitFor({ timeout: 20_000 });
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true);
    assert.deepEqual(await faults(), []);
    await picture(`${size}-l-shape`);
  });
}

for (const [size, viewport] of Object.entries(SIZES)) {
  test(`in the dark at ${size} size`, async () => {
    await page.emulateMedia({ colorScheme: "dark" });
    await page.setViewportSize(viewport);
    await open();
    assert.notEqual(await page.evaluate(() => getComputedStyle(document.querySelector("floor-heating-estimate").shadowRoot.querySelector("input[name=width]")).backgroundColor), "rgb(255, 255, 255)");
    await page.getByLabel("Floor area in m²").fill("many");
    await page.getByText("Enter a number").waitFor();
    assert.deepEqual(await faults(), []);
    await picture(`dark-${size}-at-fault`);
    await answered(() => page.getByLabel("L-shape").check());
    await page.locator("#sketch polyline").first().waitFor({ timeout: 20_000 });
    assert.deepEqual(await faults(), []);
    await picture(`dark-${size}-l-shape`);
  });
}

test("the range follows what is typed, and the same question comes from the cache", async () => {
  await open();
  const before = await cells(0);
  await answered(() => page.getByLabel("Floor area in m²").fill("40.5"));
  await page.waitForFunction((old) => document.querySelector("floor-heating-estimate").shadowRoot.querySelector("#ranges td").innerText !== old, before[0]);
  await answered(() => page.getByLabel("Floor area in m²").fill("80"));
  await page.waitForFunction((old) => document.querySelector("floor-heating-estimate").shadowRoot.querySelector("#ranges td").innerText === old, before[0]);
  assert.deepEqual(await cells(0), before);
});

test("only the keyboard is needed", async () => {
  await open();
  await page.keyboard.press("Tab");
  await page.keyboard.press("ArrowRight");
  assert.equal(await page.getByLabel("Rectangle").isChecked(), true);
  await page.keyboard.press("Tab");
  const answer = page.waitForResponse((one) => decodeURIComponent(one.url()).includes("outline=[[0,0],[6,0]"));
  await page.keyboard.type("6");
  assert.equal((await answer).status(), 200);
  await page.locator("#sketch polyline").first().waitFor({ timeout: 20_000 });
});

for (const [lang, words] of Object.entries({ "de-DE": ["Heizkreise", /\d,\d kW/], "fr-FR": ["Boucles", /\d,\d kW/], "en-GB": ["Circuits", /\d\.\d kW/] })) {
  test(`words and numbers in ${lang}`, async () => {
    await open({ lang });
    assert.equal(await page.locator("#ranges tbody th").nth(1).innerText(), words[0]);
    assert.match((await cells(3))[1], words[1]);
    assert.doesNotMatch(await page.locator("#result").innerText(), /undefined|NaN|null/);
    const comma = page.locator("[name=floor_area]");
    const answer = await answered(() => comma.fill("64,5"));
    assert.match(answer.url(), /floor_area=64\.5/);
    const thousands = await answered(() => comma.fill(lang === "en-GB" ? "1,064.5" : "1.064,5"));
    assert.match(thousands.url(), /floor_area=1064\.5/);
    const before = page.viewportSize();
    await page.setViewportSize({ width: 360, height: 740 });
    await page.locator("summary").click();
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true);
    await page.setViewportSize(before);
    assert.deepEqual(await faults(), []);
    await picture(lang);
  });
}

test("what is wrong is said at its field", async () => {
  await open();
  await page.getByLabel("Floor area in m²").fill("many");
  await page.getByText("Enter a number").waitFor();
  assert.equal(await page.getByLabel("Floor area in m²").getAttribute("aria-invalid"), "true");
  const answer = await answered(() => page.getByLabel("Floor area in m²").fill("0"));
  assert.equal(answer.status(), 422);
  await page.getByText("≥ 0.05").waitFor();
  assert.deepEqual(await faults(), []);
  await picture("field-at-fault");
  await answered(() => page.getByLabel("Floor area in m²").fill("50"));
  await page.waitForFunction(() => !document.querySelector("floor-heating-estimate").shadowRoot.querySelector("[aria-invalid=true]"));
});

test("without a connection entries stay, and it goes on when there is one again", async () => {
  await open({ prices: false });
  const cut = (route) => route.abort("internetdisconnected");
  await page.route(`${SERVICE}/**`, cut);
  await context.setOffline(true);
  await page.getByLabel("Floor area in m²").fill("61");
  await page.getByText("No connection").waitFor();
  assert.equal(await page.getByLabel("Floor area in m²").inputValue(), "61");
  assert.equal(await page.getByRole("button", { name: "Try again" }).isVisible(), true);
  assert.deepEqual(await faults(), []);
  await picture("offline");
  await page.unroute(`${SERVICE}/**`, cut);
  await answered(() => context.setOffline(false));
  await page.getByText("No connection").waitFor({ state: "hidden" });
});

test("a service that fails is told from wrong entries", async () => {
  await open({ prices: false });
  await page.route(`${SERVICE}/**`, (route) => route.fulfill({ status: 503, contentType: "application/problem+json", body: "{}", headers: { "access-control-allow-origin": "*" } }));
  await page.getByLabel("Floor area in m²").fill("62");
  await page.getByText("does not answer").waitFor();
});

test("printed with the order, without buttons", async () => {
  await open();
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator("#materials table").isVisible(), true);
  assert.equal(await page.locator("#print").isVisible(), false);
  await picture("print");
});
