// Works the live page in headless Chromium. The jobs come as JSON on standard input, what was seen
// goes as JSON to standard output. PAGE_TOOLS is the folder of the node packages.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";

const tools = createRequire(resolve(process.env.PAGE_TOOLS) + "/");
const { chromium } = tools("playwright-core");
const axe = readFileSync(tools.resolve("axe-core/axe.min.js"), "utf-8");
const { browser: executablePath, url, settings } = JSON.parse(readFileSync(0, "utf-8"));
const QUIET = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-sync", "--no-first-run",
  "--disable-background-networking", "--disable-component-update",
];
const RULES = {
  runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
  rules: { "target-size": { enabled: true } },
  resultTypes: ["violations"],
};
const browser = await chromium.launch({ executablePath, args: QUIET });

async function opened(setting) {
  const { scale, ...rest } = setting;
  const context = await browser.newContext({ deviceScaleFactor: scale ?? 1, bypassCSP: false, ...rest });
  const page = await context.newPage();
  const said = [];
  page.on("console", (message) => said.push(message.text()));
  page.on("pageerror", (problem) => said.push(String(problem)));
  page.on("request", (request) => {
    if (new URL(request.url()).origin !== new URL(url).origin) said.push("asked for " + request.url());
  });
  page.on("dialog", (dialog) => dialog.accept());
  await page.goto(url);
  return { page, said, context };
}

const quiet = (page) => page.waitForTimeout(400);
const seen = { settings: {}, story: {} };

for (const [name, setting] of Object.entries(settings)) {
  const { page, said, context } = await opened(setting);
  await page.evaluate(() => document.querySelectorAll("details").forEach((each) => { each.open = true; }));
  await quiet(page);
  await page.evaluate(() => { document.querySelector("footer").style.position = "static"; });
  await page.evaluate(axe);
  const rules = { ...RULES.rules, "color-contrast": { enabled: setting.forcedColors !== "active" } };
  const found = await page.evaluate((how) => window.axe.run(document, how), { ...RULES, rules });
  seen.settings[name] = {
    violations: found.violations.flatMap((one) => one.nodes.map((node) => [one.id, node.target.join(" "), node.failureSummary])),
    passed: found.passes.map((one) => one.id),
    wide: await page.evaluate(() => document.documentElement.scrollWidth),
    said,
  };
  await context.close();
}

// The story: by the keyboard alone, a length is moved, a word is chosen, a slip is made and undone,
// and all is saved.
const { page, said, context } = await opened({ viewport: { width: 1280, height: 900 } });
const value = (field) => page.inputValue(`[name="${field}"]`);
const foot = () => page.textContent("#foot");
const drawn = () => page.getAttribute("#drawing path.edge", "d");
async function to(selector) {
  for (let step = 0; step < 200; step += 1) {
    if (await page.evaluate((s) => document.activeElement.matches(s), selector)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error("the Tab key never reaches " + selector);
}
const before = { drawing: await drawn(), foot: await foot() };
await to("details.group:nth-of-type(4) > summary");
await page.keyboard.press("Enter");
await to('[data-slides="garment.sleeves.length"]');
const began = Date.now();
for (let step = 0; step < 12; step += 1) await page.keyboard.press("ArrowRight");
await page.waitForFunction((d) => document.querySelector("#drawing path.edge").getAttribute("d") !== d, before.drawing);
await quiet(page);
const moved = { length: await value("garment.sleeves.length"), drawing: await drawn() };
await page.waitForSelector('[data-strip="garment.sleeves.length"] rect');
const strip = await page.locator('[data-strip="garment.sleeves.length"] rect').count();
await to('[name="ease.chest"]');
await page.keyboard.press("Control+A");
await page.keyboard.type("38-39");
await page.waitForSelector('[data-field="ease.chest"].has-error');
await page.waitForFunction(() => document.querySelector('[data-field="ease.chest"] .finding').textContent.includes("range"));
const refused = {
  typed: await value("ease.chest"),
  told: await page.textContent('[data-field="ease.chest"] .finding'),
  marked: await page.locator('[data-field="ease.chest"].has-error').count(),
};
await page.keyboard.press("Control+A");
await page.keyboard.type("close");
await page.waitForFunction(() => !document.querySelector('[data-field="ease.chest"].has-error'));
await quiet(page);
await page.locator("#undo").focus();
await page.keyboard.press("Enter");
await page.waitForFunction(() => !document.getElementById("redo").disabled);
const undone = await value("ease.chest");
await page.locator("#redo").focus();
await page.keyboard.press("Enter");
await page.waitForFunction(() => document.getElementById("redo").disabled);
const redone = await value("ease.chest");
await page.locator("#save").focus();
await page.keyboard.press("Enter");
await page.waitForFunction(() => document.getElementById("message").textContent !== "");
seen.story = {
  moved, strip, refused, undone, redone, changed: moved.drawing !== before.drawing,
  message: await page.textContent("#message"), foot: await foot(), said, took: Date.now() - began,
};
await context.close();
await browser.close();
process.stdout.write(JSON.stringify(seen));
