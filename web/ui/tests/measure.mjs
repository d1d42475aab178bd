// How fast a drag is followed, in Chromium against a running desk:
//   npm run measure -- http://127.0.0.1:PORT/ [SECONDS]
// It drags the first boat's cant, held and then balanced, alone and then beside a job of
// odds, which it cancels and forgets, and prints frames a second and the times from
// question to answer. Run it on a machine with nothing else to do.

import { chromium } from "@playwright/test";

const [address, seconds = "3"] = process.argv.slice(2);
if (!address) {
  console.error("measure: say where the desk is: npm run measure -- http://127.0.0.1:PORT/");
  process.exit(2);
}

const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });

// Each question's time of leaving and each answer's of coming, and each frame's.
await page.addInitScript(() => {
  const seen = (window.seen = { sent: new Map(), trips: [], served: [], frames: [] });
  const Plain = window.WebSocket;
  window.WebSocket = class extends Plain {
    constructor(...to) {
      super(...to);
      this.addEventListener("message", (e) => {
        const told = JSON.parse(e.data);
        const left = seen.sent.get(told.seq);
        if (told.lane !== "view" || left === undefined) return;
        seen.trips.push(performance.now() - left);
        seen.served.push(told.took_s * 1000);
      });
    }
    send(text) {
      seen.sent.set(JSON.parse(text).seq, performance.now());
      super.send(text);
    }
  };
  const frame = (t) => {
    seen.frames.push(t);
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
});

// Moves are sent without waiting for each to be drawn, as a hand's are.
const hand = await page.context().newCDPSession(page);
const share = (all, p) => all.slice().sort((a, b) => a - b)[Math.min(all.length - 1, Math.floor(all.length * p))];

async function drag(way) {
  await page.getByRole("button", { name: way, exact: true }).first().click();
  await page.waitForTimeout(2500);
  const handle = page.locator('[data-handle$="cant"]').first();
  const box = await handle.locator(".knob").boundingBox();
  const name = await handle.getAttribute("aria-label");
  const x = box.x + box.width / 2, y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.evaluate(() => { seen.trips.length = seen.served.length = seen.frames.length = 0; });
  const until = Date.now() + 1000 * Number(seconds);
  for (let i = 0; Date.now() < until; i++) {
    const away = 18 * (1 - Math.cos(i / 14));
    void hand.send("Input.dispatchMouseEvent", { type: "mouseMoved", x: x - away, y: y + away * 0.4, button: "left", buttons: 1 });
    await new Promise((next) => setTimeout(next, 8));
  }
  const { trips, served, frames } = await page.evaluate(() => ({ trips: seen.trips, served: seen.served, frames: seen.frames }));
  await page.mouse.up();
  const rate = (1000 * (frames.length - 1)) / (frames.at(-1) - frames[0]);
  const gaps = frames.slice(1).map((t, i) => t - frames[i]);
  console.log(`${way.padEnd(9)} ${name}: ${rate.toFixed(1)} frames/s (longest gap ${Math.max(...gaps).toFixed(0)} ms); ${trips.length} answers, ` +
    `round trip ${share(trips, 0.5).toFixed(1)} ms in the middle, ${share(trips, 0.95).toFixed(1)} ms at the 95th percentile, ` +
    `of that at work ${share(served, 0.5).toFixed(1)} and ${share(served, 0.95).toFixed(1)} ms`);
}

// job asks a question about a job on a socket of its own, and waits for what holds.
const job = (verb, question, holds) => page.evaluate(([verb, question, standing]) => new Promise((done, fail) => {
  const to = new URL("live", location.href);
  to.protocol = "ws:";
  to.hash = "";
  const line = new WebSocket(to);
  line.onopen = () => line.send(JSON.stringify({ lane: "job", seq: 1, verb, boats: question.boats, question }));
  line.onmessage = (e) => {
    const told = JSON.parse(e.data), state = told.event === "job" ? told.body : told.job;
    if (told.error) fail(new Error(told.error));
    if (told.lane === "job" && standing === "" || state?.standing === standing) {
      line.close();
      done(state?.id);
    }
  };
}), [verb, question, holds]);

await page.goto(address);
await page.waitForSelector("[data-handle]", { timeout: 120000 });
await page.waitForSelector(".said h2", { timeout: 120000 });
await drag("Held");
await drag("Balanced");
const boats = (await (await fetch(new URL("files", address))).json()).slice(0, 2).map((b) => b.file);
const id = await job("run", { boats, verb: "odds", question: { true_wind_speeds_mps: [8.5], samples: 4096, seed: Date.now() % 1e6 } }, "running");
console.log("beside a job of odds:");
await drag("Held");
await drag("Balanced");
await job("cancel", { id }, "cancelled");
await job("forget", { id, sure: true }, "");
await browser.close();
