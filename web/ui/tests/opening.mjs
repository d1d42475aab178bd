// From the command to the picture, in Chromium that is running already, and in one that is
// begun when the address is known:
//   npm run opening -- PROGRAM FOLDER [TIMES]
// It prints ms after the command: the address, the browser's own start, and what the page
// shows on the way to the boat at her best trim and the answer.

import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { chromium } from "@playwright/test";

const [program, folder, times = "3"] = process.argv.slice(2);
if (!program || !folder) {
  console.error("opening: say which program and folder: npm run opening -- PROGRAM FOLDER");
  process.exit(2);
}

// Seen in the page: what it shows when, by its own clock.
function watch() {
  const seen = (window.seen = {});
  const mark = (name) => { seen[name] ??= performance.timeOrigin + performance.now(); };
  const look = () => {
    if (document.querySelector("header")) mark("first render");
    if (document.querySelector(".flat svg")) mark("boat");
    if (document.querySelector("[data-handle]")) mark("handles");
    if (/a first answer/.test(document.querySelector(".says")?.textContent ?? "")) mark("first answer");
    if (/^[^]*best trim(?! near| is being)/.test(document.querySelector(".says")?.textContent ?? "")) mark("best trim");
    if (document.querySelector(".said h2")) mark("answer");
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
  const Plain = window.WebSocket;
  window.WebSocket = class extends Plain {
    constructor(...to) {
      super(...to);
      mark("socket asked");
      this.addEventListener("open", () => mark("socket open"));
      this.addEventListener("message", (e) => {
        const told = JSON.parse(e.data);
        if (told.lane) mark("told " + told.lane + (told.took_s ? ` (${(told.took_s * 1000).toFixed(0)} ms)` : ""));
      });
    }
    send(text) {
      mark("ask " + JSON.parse(text).lane);
      super.send(text);
    }
  };
}

const launch = () => chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });

async function open(running) {
  const already = running ? await launch() : null;
  const warm = await already?.newPage({ viewport: { width: 1280, height: 720 } });
  await warm?.addInitScript(watch);
  const began = Date.now();
  const child = spawn(program, ["desk", folder, "--no-open", "--listen", "127.0.0.1:0"], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((done) => createInterface({ input: child.stdout }).once("line", done));
  const at = { address: Date.now() };
  const browser = already ?? await launch();
  const page = warm ?? await browser.newPage({ viewport: { width: 1280, height: 720 } });
  if (!warm) await page.addInitScript(watch);
  at["page asked"] = Date.now();
  await page.goto(address);
  await page.waitForFunction(() => seen["best trim"] && seen.answer, null, { timeout: 60000 });
  const { seen, entries, origin } = await page.evaluate(() => ({
    seen: window.seen, origin: performance.timeOrigin,
    entries: performance.getEntries().map((e) => ({ name: e.name.replace(/^.*\//, "") || "index.html", type: e.entryType, from: e.startTime, to: e.entryType === "paint" ? e.startTime : e.responseEnd ?? e.startTime + e.duration, ready: e.domContentLoadedEventEnd })),
  }));
  for (const e of entries) if (["resource", "navigation", "paint"].includes(e.type)) at[`${e.type} ${e.name}`] = origin + e.to;
  Object.assign(at, seen);
  console.log(`browser ${running ? "running already" : "begun with the command"}\n` + Object.entries(at).sort((a, b) => a[1] - b[1]).map(([name, t]) => `${(t - began).toFixed(0).padStart(6)}  ${name}`).join("\n") + "\n");
  await browser.close();
  child.kill("SIGINT");
}

for (let i = 0; i < Number(times); i++) for (const running of [true, false]) await open(running);
