// The packed client in Chromium (CHROMIUM), as a page without a bundler uses it, from another origin than the service.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { after, before, test } from "node:test";
import { chromium } from "playwright-core";

const { SERVICE, CHROMIUM } = process.env;
const IMPORTS = {
  "tepidarium-client": "/node_modules/tepidarium-client/dist/index.js",
  "openapi-fetch": "/node_modules/openapi-fetch/dist/index.mjs",
};
const HTML = `<!doctype html><title>Client</title><script type="importmap">${JSON.stringify({ imports: IMPORTS })}</script>`;
let browser, page, server;

before(async () => {
  browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu", "--no-first-run"] });
  page = await browser.newPage();
  server = createServer(async ({ url }, response) => {
    const script = url.endsWith("js");
    const type = script ? "text/javascript" : "text/html";
    response.writeHead(200, { "Content-Type": type }).end(script ? await readFile(`.${url}`) : HTML);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  await page.goto(`http://127.0.0.1:${server.address().port}/`);
});
after(async () => {
  await browser?.close();
  server?.close();
});

test("many answers, a file, a refusal and an aborted call on a page", async () => {
  const found = await page.evaluate(async (service) => {
    const { Client, dataOf } = await import("tepidarium-client");
    const client = new Client(service);
    const floor = { area: 12, pipe_spacing: 0.15, tail_length: 4 };
    const outline = [[0, 0], [4, 0], [4, 3], [0, 3]];
    const replies = await Promise.all(Array.from({ length: 100 }, () => client.loopLength(floor)));
    const svg = dataOf(await client.routesDrawing({ outline, entry: [2, 0], pipe_spacing: 0.2 }));
    const image = new Image();
    image.src = URL.createObjectURL(svg);
    await image.decode();
    const refusal = await client.loopLength({ ...floor, area: 0 });
    const aborted = await client.loopLength(floor, { signal: AbortSignal.abort() });
    const away = await new Client("http://127.0.0.1:1", { retries: 0 }).loopLength(floor);
    return {
      lengths: replies.map((reply) => dataOf(reply).pipe_length),
      width: image.naturalWidth,
      pointers: refusal.error.errors.map((field) => field.pointer),
      requestId: refusal.error.requestId,
      kinds: [refusal, aborted, away].map((reply) => reply.error.kind),
    };
  }, SERVICE);
  assert.equal(new Set(found.lengths).size, 1);
  assert.ok(found.lengths[0] > 50 && found.width > 100);
  assert.deepEqual(found.pointers, ["/area"]);
  assert.match(found.requestId, /^[0-9a-f-]{36}$/);
  assert.deepEqual(found.kinds, ["invalid-input", "aborted", "network"]);
});
