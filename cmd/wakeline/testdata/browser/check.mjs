// Opens lesson pages in a real browser, and says on standard output what is
// wrong with them, a line each. It is called by browser_test.go with a file of
// what to expect.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const [, , expectPath, modules] = process.argv;
const expect = JSON.parse(readFileSync(expectPath, "utf8"));
const require = createRequire(modules + "/");
const { chromium } = require("playwright-core");
const { HtmlValidate } = require("html-validate");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

let wrong = 0;
const fail = (...what) => {
  wrong++;
  console.log(what.join(" "));
};
const same = (got, want, ...of) => {
  if (got !== want) fail(...of, "is", JSON.stringify(got), "and should be", JSON.stringify(want));
};

const browser = await chromium.launch({
  executablePath: expect.browser,
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});

// open opens a page in a context of its own, and notes all that it complains
// about and asks for. do is given the page.
const open = async (name, options, act) => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(15000);
  const url = pathToFileURL(`${expect.folder}/${name}.html`).href;
  page.on("console", (m) => fail(name, "says on its console:", m.text()));
  page.on("pageerror", (e) => fail(name, "fails:", e.message));
  page.on("request", (r) => {
    if (r.url().split("#")[0] !== url) fail(name, "asks for", r.url());
  });
  try {
    await page.goto(url);
    await act(page);
  } catch (e) {
    fail(name, String(e.stack || e));
  }
  await context.close();
};

const text = (page, selector) => page.locator(selector).first().textContent();
const shot = async (page, name) => {
  if (expect.shots) await page.screenshot({ path: `${expect.shots}/page-${name}.png`, fullPage: true });
};

// accessible asks axe for what is in the way of anyone.
const accessible = async (page, name) => {
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document));
  for (const v of found.violations) fail(name, v.id, v.help, v.nodes.map((n) => n.html).join("; "));
  if (found.passes.length < 10) fail(name, "axe looked at", found.passes.length, "rules alone");
};

// fits looks whether nothing has to be scrolled sideways.
const fits = async (page, name) => {
  const [has, room] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  if (has > room) fail(name, "is", has, "wide in a window of", room);
};

// says compares what stands there with what judge says at that delay.
const says = async (page, step, of) => {
  same(await text(page, ".stamp .word"), step.verdict, of, "the verdict");
  same(await text(page, ".because .why"), step.because, of, "the sentence");
  if (!(await text(page, ".because .at")).includes(`delay ${step.delay}.`)) fail(of, "says", await text(page, ".because .at"));
  same(await text(page, "output"), String(step.delay), of, "the delay");
};

const validator = new HtmlValidate({ extends: ["html-validate:standard"] });
for (const name of expect.pages) {
  const report = await validator.validateString(readFileSync(`${expect.folder}/${name}.html`, "utf8"));
  for (const r of report.results) for (const m of r.messages) fail(`${name}:${m.line}:${m.column}`, m.ruleId, m.message);
}

const steps = expect.lesson;
const own = steps.findIndex((s) => s.own);

// By keys, on a wide screen: every step says what judge says.
await open("lesson", {}, async (page) => {
  await says(page, steps[own], "the page as it opens");
  const slider = page.locator("input[type=range]");
  await slider.focus();
  await page.keyboard.press("Home");
  const pictures = new Set();
  for (let i = 0; i < steps.length; i++) {
    await says(page, steps[i], `step ${i}`);
    pictures.add(await page.locator(".strip").innerHTML());
    await page.keyboard.press("ArrowRight");
  }
  same(pictures.size, steps.length, "the number of pictures");
  await says(page, steps[steps.length - 1], "past the last step");
  await page.keyboard.press("ArrowLeft");
  await says(page, steps[steps.length - 2], "one step back");
  await page.evaluate(() => document.activeElement.blur());
  await page.keyboard.press("ArrowLeft"); // wherever the keys are
  await says(page, steps[steps.length - 3], "one step back from outside the slider");

  // By pointer: the slider, its buttons, and the picture itself.
  const bar = await slider.boundingBox();
  await page.mouse.move(bar.x + bar.width / 2, bar.y + bar.height / 2);
  await page.mouse.down();
  await page.mouse.move(bar.x + bar.width - 1, bar.y + bar.height / 2, { steps: 5 });
  await page.mouse.up();
  await says(page, steps[steps.length - 1], "the slider dragged to its end");
  await page.locator(".less").click();
  await says(page, steps[steps.length - 2], "the button for an earlier step");
  await page.locator(".more").click();
  await says(page, steps[steps.length - 1], "the button for a later step");
  const strip = await page.locator(".strip").boundingBox();
  await page.mouse.move(strip.x + strip.width - 40, strip.y + strip.height / 2);
  await page.mouse.down();
  await page.mouse.move(strip.x + 10, strip.y + strip.height / 2, { steps: 8 });
  await page.mouse.up();
  await says(page, steps[0], "the picture dragged to the left");

  // Each reply has its own picture and words; the deciding one comes back.
  const select = page.locator("select");
  const names = await select.locator("option").allTextContents();
  same(JSON.stringify(names), JSON.stringify(["Deciding reply", ...expect.replies.map((r) => r.reply)]), "the list of replies");
  for (const [i, r] of expect.replies.entries()) {
    await select.selectOption(String(i));
    same(await text(page, "figcaption span"), `Against ${r.reply}: ${r.outcome}`, "the caption");
    if ((await text(page, ".say")).length < 20) fail("against", r.reply, "the page says nothing");
    if ((await page.locator(".strip > *").count()) < 30) fail("against", r.reply, "there is no picture");
  }
  await select.selectOption("-1");

  // Play, then pause; the frame goes on by itself.
  const play = page.locator(".play");
  await play.click();
  await page.waitForFunction(() => Number(document.querySelector(".now text")?.textContent) >= 3);
  same(await play.textContent(), "Pause", "the button while it plays");
  await play.click();
  const stopped = await text(page, ".now text");
  await page.waitForTimeout(400);
  same(await text(page, ".now text"), stopped, "the frame after a pause");
  await slider.focus();
  await page.keyboard.press("ArrowRight");
  same(await page.locator(".now").count(), 0, "lines after another step is shown");

  await page.emulateMedia({ media: "print" });
  if (await page.locator(".controls").first().isVisible()) fail("on paper there are controls");
  if ((await page.pdf({ format: "A4" })).length < 10000) fail("the page prints nothing");
});

// Without a script the page shows the setup as it is: the very same picture.
let still = "";
await open("lesson", { javaScriptEnabled: false }, async (page) => {
  await says(page, steps[own], "the page without a script");
  same(await page.locator(".controls").first().isVisible(), false, "controls without a script");
  still = await page.locator(".strip").innerHTML();
});
await open("lesson", {}, async (page) => {
  await page.locator(".more").click();
  await page.locator(".less").click();
  same(await page.locator(".strip").innerHTML(), still, "the picture that the script draws");
});

// A reader who wants no motion goes on by hand.
await open("lesson", { reducedMotion: "reduce" }, async (page) => {
  const play = page.locator(".play");
  same(await play.textContent(), "Next frame", "the button without motion");
  await play.click();
  await play.click();
  same(await text(page, ".now text"), "1", "the frame after two presses");
  await page.waitForTimeout(400);
  same(await text(page, ".now text"), "1", "the frame that nobody moves");
});

// On a phone, by finger.
await open("placed", { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }, async (page) => {
  const before = await page.locator(".strip").innerHTML();
  await page.locator(".more").tap();
  if ((await page.locator(".strip").innerHTML()) === before) fail("a tap changes nothing");
  if ((await page.locator(".side > *").count()) < 10) fail("there is no side view");
  if (!(await text(page, ".where")).startsWith("On frame ")) fail("where both stand is", await text(page, ".where"));
  const strip = await page.locator(".strip").boundingBox();
  const stamp = await page.locator(".stamp").boundingBox();
  if (stamp.y > 200) fail("the verdict stands", stamp.y, "down the page");
  if (strip.width < 340) fail("the strip is", strip.width, "wide");

  // What is under a finger stays there while the words change.
  const slider = page.locator("input[type=range]");
  const places = new Set();
  for (let i = 0; i < 12; i++) {
    places.add((await slider.boundingBox()).y);
    await page.locator(".more").evaluate((b) => b.click());
  }
  same(places.size, 1, "the number of heights of the slider");
});

// In both schemes and both sizes nothing is in anyone's way.
for (const colorScheme of ["light", "dark"]) {
  const paper = [];
  for (const [width, height] of [[390, 844], [1440, 900]]) {
    for (const name of expect.pages) {
      const of = `${name}-${width}-${colorScheme}`;
      await open(name, { viewport: { width, height }, colorScheme }, async (page) => {
        await page.evaluate(() => document.querySelectorAll("details").forEach((d) => { d.open = true; }));
        await accessible(page, of);
        await fits(page, of);
        await page.evaluate(() => document.querySelectorAll("details").forEach((d) => { d.open = false; }));
        if (name !== "several") await shot(page, of);
        paper.push(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor));
      });
    }
  }
  same(new Set(paper).size, 1, "papers of", colorScheme);
  if ((paper[0] === "rgb(250, 247, 239)") !== (colorScheme === "light")) fail("the paper in", colorScheme, "is", paper[0]);
}

// An exercise, by keys alone.
await open("exercise", {}, async (page) => {
  const good = new Set(steps.filter((s) => s.verdict !== "unsafe").map((s) => s.delay));
  const at = async () => Number(await text(page, "output"));
  same(await page.locator(".stamp").isVisible(), false, "the verdict before the answer");
  if ((await page.locator("body").innerText()).includes(expect.name)) fail("the exercise shows the setup's name");
  if (good.has(await at())) fail("the exercise begins at a delay that is safe,", await at());
  const slider = page.locator("input[type=range]");
  for (let i = 0; i < 20 && !(await slider.evaluate((e) => e === document.activeElement)); i++) await page.keyboard.press("Tab");
  await page.keyboard.press("End");
  const last = steps[steps.length - 1].delay;
  same(await at(), last, "the delay after End");
  await page.keyboard.press("Enter");
  same(await text(page, ".said"), `Not right. Delay ${last} is too late. Try again, ask for a hint, or see the answer.`, "a wrong answer");
  same(await page.locator(".give").isVisible(), true, "the way to the answer after a try");
  const hint = page.locator(".hint");
  while (!(await hint.evaluate((e) => e === document.activeElement))) await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  if ((await page.locator(".hints li").count()) !== 1 || (await text(page, ".hints li")).length < 20) fail("no hint is given");
  same(await page.locator(".stamp").isVisible(), false, "the verdict after a hint");
  while (!(await slider.evaluate((e) => e === document.activeElement))) await page.keyboard.press("Shift+Tab");
  for (let i = 0; i < steps.length && !good.has(await at()); i++) await page.keyboard.press("ArrowLeft");
  const found = await at();
  await page.keyboard.press("Enter");
  if (!(await text(page, ".said")).startsWith(`Right. Delay ${found} is safe.`)) fail("a right answer says", await text(page, ".said"));
  await says(page, steps.find((s) => s.delay === found), "the exercise after its answer");
  same(await text(page, "h1"), expect.name, "the name after the answer");
  same(await page.evaluate(() => document.activeElement.textContent), "Try again", "what has the keys");
  await accessible(page, "the exercise after its answer");
  await shot(page, "exercise-answered");
  await page.keyboard.press("Enter");
  same(await page.locator(".stamp").isVisible(), false, "the verdict when it begins again");
});

// Several exercises: contents, and a score.
await open("several", {}, async (page) => {
  const links = page.locator("nav a");
  same(await links.count(), 3, "entries of the contents");
  await links.nth(1).click();
  same(new URL(page.url()).hash, "#setup2", "where the contents lead");
  const second = page.locator("#setup2");
  await second.locator(".none").click();
  await second.locator(".give").click();
  same(await text(page, "#done1"), "answer shown", "the mark in the contents");
  if (!(await text(page, "#score")).startsWith("1 of 3 done: 0 right")) fail("the score is", await text(page, "#score"));
  same(await page.evaluate(() => document.activeElement.getAttribute("href")), "#setup3", "what leads on");
});

// A name that is markup stays a name.
await open("hostile", {}, async (page) => {
  same(await text(page, "h1"), expect.hostile, "the hostile name");
  same(await page.evaluate(() => [document.querySelectorAll("b, i").length, globalThis.harmed].join()), "0,", "what it has done");
  await page.locator(".more").click();
  await page.locator(".play").click();
});

await browser.close();
process.exit(wrong > 0 ? 1 : 0);
