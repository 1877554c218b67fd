// Looks at pages in headless Chromium. Jobs come as JSON on standard input, what was
// seen goes as JSON to standard output. PAGE_TOOLS is the folder of the node packages.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";

const tools = createRequire(resolve(process.env.PAGE_TOOLS) + "/");
const { chromium } = tools("playwright-core");
const axe = readFileSync(tools.resolve("axe-core/axe.min.js"), "utf-8");

const QUIET = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-sync", "--no-first-run",
  "--disable-background-networking", "--disable-component-update",
];

// WCAG 2.2 at levels A and AA, and good practice besides. The size of targets must be asked for.
const RULES = {
  runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
  rules: { "target-size": { enabled: true } },
  resultTypes: ["violations", "incomplete"],
};

// Opens a page under its own policy, and writes down what it says, asks for and is refused.
async function opened(browser, url, { scale, ...rest }) {
  const context = await browser.newContext({ deviceScaleFactor: scale ?? 1, ...rest });
  const page = await context.newPage();
  const said = [];
  page.on("console", (message) => said.push(message.text()));
  page.on("pageerror", (problem) => said.push(String(problem)));
  page.on("request", (request) => { if (request.url() !== url) { said.push("asked for " + request.url()); } });
  page.on("dialog", (dialog) => dialog.accept());
  await page.addInitScript(() => {
    window.refused = [];
    document.addEventListener("securitypolicyviolation", (event) => window.refused.push(event.effectiveDirective));
  });
  await page.goto(url);
  return { page, said, close: () => context.close() };
}

// Violations, what could not be decided, how wide the page is, what moves.
async function check(browser, { url, setting }) {
  const { page, said, close } = await opened(browser, url, setting);
  await page.evaluate(() => {
    document.querySelectorAll("details").forEach((each) => { each.open = true; });
    // What lies under the bar could not be told from it.
    document.getElementById("bar").style.position = "static";
  });
  await page.evaluate(axe);
  // Forced colours are the system's own; axe reads those that the page would have.
  const rules = { ...RULES.rules, "color-contrast": { enabled: setting.forcedColors !== "active" } };
  const found = await page.evaluate((how) => window.axe.run(document, how), { ...RULES, rules });
  const told = (result) => result.nodes.map((node) => [result.id, node.target.join(" "), node.failureSummary]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  const moving = await page.evaluate(() => {
    document.querySelector("tr.line input").click();
    return document.getAnimations().length;
  });
  await close();
  return {
    violations: found.violations.flatMap(told), undecided: found.incomplete.flatMap(told),
    passed: found.passes.map((result) => result.id), wide, moving, said,
  };
}

// Goes through the whole page with the Tab key alone, and ticks every box with the space bar.
async function keyboard(browser, { url, setting }) {
  const { page, said, close } = await opened(browser, url, setting);
  const wanted = await page.evaluate(() => {
    const all = document.querySelectorAll("a[href], input, button, summary, textarea");
    const shown = Array.from(all).filter((each) => each.offsetParent !== null && !each.closest("details :not(summary)"));
    shown.forEach((each, at) => { each.dataset.stop = at; });
    return shown.length;
  });
  const first = await page.evaluate(() => document.querySelector("tr.line input[type=checkbox]").id);
  const stops = [];
  for (let step = 0; step < wanted; step += 1) {
    await page.keyboard.press("Tab");
    stops.push(await page.evaluate(() => {
      const at = document.activeElement;
      const light = (colour) => {
        const [r, g, b] = colour.match(/[\d.]+/g).slice(0, 3).map((part) => {
          const share = Number(part) / 255;
          return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
        });
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
      };
      const ground = (element) => {
        for (let each = element.parentElement; each; each = each.parentElement) {
          const colour = getComputedStyle(each).backgroundColor;
          if (!/, 0\)$/.test(colour)) { return colour; }
        }
        return "rgb(255, 255, 255)";
      };
      const look = getComputedStyle(at);
      const [low, high] = [light(look.outlineColor), light(ground(at))].sort((a, b) => a - b);
      const place = at.getBoundingClientRect();
      const bar = document.getElementById("bar");
      const under = !bar.contains(at) && place.top >= bar.getBoundingClientRect().top;
      return {
        stop: Number(at.dataset.stop), id: at.id,
        outline: look.outlineStyle === "none" ? 0 : parseFloat(look.outlineWidth),
        contrast: (high + 0.05) / (low + 0.05),
        seen: !under && place.bottom > 0 && place.top < window.innerHeight,
      };
    }));
    const box = await page.evaluate(() => document.activeElement.type === "checkbox" && document.activeElement.id);
    if (box) { await page.keyboard.press("Space"); }
    // One stays open, as the bar offers nothing to continue with when all is done.
    if (box && box === first) { await page.keyboard.press("Space"); }
  }
  const ticked = () => page.evaluate(() => document.querySelectorAll("input:checked").length);
  const boxes = await page.evaluate(() => document.querySelectorAll("input[type=checkbox]").length);
  const before = await ticked();
  await page.reload();
  const after = await ticked();
  // The link that skips to the rounds is the first stop, and leads there.
  await page.keyboard.press("Tab");
  const skip = await page.evaluate(() => {
    const place = document.activeElement.getBoundingClientRect();
    return { words: document.activeElement.textContent, seen: place.left >= 0 && place.width > 0 };
  });
  await page.keyboard.press("Enter");
  await page.keyboard.press("Tab");
  const landed = await page.evaluate(() => document.activeElement.closest("#rounds") !== null);
  await close();
  return { wanted, stops, boxes, before, after, skip, landed, said };
}

// Uses every control under the page's own policy; then tries what the policy forbids.
async function policy(browser, { url }) {
  const { page, said, close } = await opened(browser, url, {});
  await page.locator("tr.line input").first().check();
  await page.locator("#continue").click();
  await page.locator("summary").click();
  await page.locator("#save").click();
  const text = await page.locator("#ticks-text").inputValue();
  await page.locator("#clear").click();
  const cleared = await page.evaluate(() => document.querySelectorAll("input:checked").length);
  await page.locator("#ticks-text").fill(text);
  await page.locator("#restore").click();
  const restored = await page.evaluate(() => document.querySelectorAll("input:checked").length);
  const refused = await page.evaluate(() => window.refused);
  const harmless = [...said];
  const ran = await page.evaluate(async () => {
    const put = (tag, more) => { document.body.append(Object.assign(document.createElement(tag), more)); };
    put("script", { textContent: "window.ran = true" });
    put("style", { textContent: "body { color: red }" });
    put("img", { src: "data:image/gif;base64,R0lGODlhAQABAAAAACwAAAAAAQABAAA=" });
    put("iframe", { src: "data:text/html,hello" });
    put("form", { action: "http://localhost/sent", id: "out" });
    put("base", { href: "file:///elsewhere/" });
    document.body.setAttribute("onclick", "window.ran = true");
    document.body.click();
    document.getElementById("out").submit();
    await fetch("data:text/plain,hello").catch(() => {});
    await new Promise((done) => { setTimeout(done, 300); });
    return window.ran === true;
  });
  const forbidden = await page.evaluate(() => window.refused);
  await close();
  return { text, cleared, restored, refused, said: harmless, ran, forbidden };
}

async function print(browser, { url, into }) {
  const { page, said, close } = await opened(browser, url, {});
  await page.pdf({ path: into, preferCSSPageSize: true });
  await close();
  return { said };
}

async function shot(browser, { url, setting, into, whole }) {
  const { page, close } = await opened(browser, url, setting);
  await page.screenshot({ path: into, fullPage: whole ?? true });
  await close();
  return {};
}

const TASKS = { check, keyboard, policy, print, shot };

const job = JSON.parse(readFileSync(0, "utf-8"));
const browser = await chromium.launch({ executablePath: job.browser, args: [...QUIET, ...(job.flags ?? [])] });
try {
  const seen = [];
  for (const look of job.looks) { seen.push(await TASKS[look.task](browser, look)); }
  process.stdout.write(JSON.stringify(seen));
} finally {
  await browser.close();
}
