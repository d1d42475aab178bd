// A desk of its own for each test: the built program on a copy of the example boats.
// Every page is watched: it asks nothing of other machines, and its console stays clean.

import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import AxeBuilder from "@axe-core/playwright";
import { type Page, test as plain, expect } from "@playwright/test";

export { expect };

const root = join(dirname(fileURLToPath(import.meta.url)), "../../..");

// program is the built program: FOILWRIGHT names one, else it is built once.
function built(): string {
  const named = process.env.FOILWRIGHT;
  if (named) return named;
  const out = join(tmpdir(), "foilwright-browser-" + process.pid);
  if (!existsSync(out)) execFileSync("go", ["build", "-o", out, "./cmd/foilwright"], { cwd: root, stdio: "inherit", env: { GOEXPERIMENT: "simd", ...process.env } });
  return out;
}

export interface Desk {
  address: string;
  folder: string;
  end: () => Promise<void>;
  again: () => Promise<void>; // as if the program had been ended and begun anew
  run: (...args: string[]) => string; // the command line in the same folder
}

async function start(program: string, folder: string, listen: string): Promise<{ child: ChildProcess; address: string }> {
  const child = spawn(program, ["desk", folder, "--no-open", "--listen", listen], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise<string>((done, fail) => {
    createInterface({ input: child.stdout! }).once("line", done);
    child.once("exit", (code) => fail(new Error(`the desk ended with ${code}`)));
  });
  return { child, address };
}

export const test = plain.extend<{ desk: Desk; quiet: { asks: string[]; faults: string[] } }, { program: string }>({
  program: [
    async ({}, use) => {
      const program = built();
      await use(program);
      if (!process.env.FOILWRIGHT) rmSync(program, { force: true });
    },
    { scope: "worker", timeout: 180_000 },
  ],
  desk: async ({ program }, use) => {
    const folder = mkdtempSync(join(tmpdir(), "foilwright-desk-"));
    cpSync(join(root, "examples/which-foil"), folder, { recursive: true });
    let { child, address } = await start(program, folder, "127.0.0.1:0");
    const end = async () => {
      const gone = new Promise((done) => child.once("exit", done));
      child.kill("SIGINT");
      await gone;
    };
    await use({
      address, folder, end,
      again: async () => {
        if (child.exitCode === null && child.signalCode === null) await end();
        ({ child, address } = await start(program, folder, new URL(address).host));
      },
      run: (...args) => execFileSync(program, args, { cwd: folder, encoding: "utf8" }),
    });
    if (child.exitCode === null && child.signalCode === null) await end();
    rmSync(folder, { recursive: true, force: true });
  },
  quiet: [
    async ({ page, desk }, use) => {
      const seen = { asks: [] as string[], faults: [] as string[] };
      page.on("request", (r) => {
        const to = new URL(r.url());
        if (!["data:", "blob:"].includes(to.protocol) && to.host !== new URL(desk.address).host) seen.asks.push(r.url());
      });
      page.on("console", (m) => m.type() === "error" && seen.faults.push(m.text()));
      page.on("pageerror", (e) => seen.faults.push(e.message));
      await use(seen);
      expect(seen.asks, "requests to elsewhere").toEqual([]);
      expect(seen.faults, "errors of the page").toEqual([]);
    },
    { auto: true },
  ],
});

// link returns an address that opens the desk with some of its state set.
export function link(desk: Desk, view: Record<string, unknown>): string {
  return desk.address + "#" + packed(view);
}

import { deflateRawSync, inflateRawSync } from "node:zlib";
function packed(view: Record<string, unknown>): string {
  return deflateRawSync(JSON.stringify(view)).toString("base64url");
}

// said returns what the address of a page says; it follows what was done a moment later.
export function said(page: Page): Record<string, unknown> {
  const packed = new URL(page.url()).hash.slice(1);
  return packed === "" ? {} : (JSON.parse(inflateRawSync(Buffer.from(packed, "base64url")).toString()) as Record<string, unknown>);
}

// both is a view of Sorrel and Tansy.
export const both = { boats: [{ file: "sorrel.yaml", slot: 0 }, { file: "tansy.yaml", slot: 1 }], chosen: "sorrel.yaml" };

// answered waits until the boat is drawn.
export async function drawn(page: Page): Promise<void> {
  await expect(page.getByRole("region", { name: "The boat" }).locator("svg").first()).toBeVisible();
}

// settled waits until nothing is being worked out.
export async function settled(page: Page): Promise<void> {
  await expect(page.locator("[aria-busy=true], .waits")).toHaveCount(0, { timeout: 60_000 });
  await expect(page.getByText("◷")).toHaveCount(0);
}

// cautioned finds the caution in the foot, on screen and on paper.
export async function cautioned(page: Page): Promise<void> {
  for (const media of ["print", "screen"] as const) {
    await page.emulateMedia({ media });
    await expect(page.getByRole("contentinfo")).toBeVisible();
    await expect(page.getByRole("contentinfo")).toContainText(/loads are not scantlings/);
  }
}

// spotless has axe look at what is shown, light and dark.
export async function spotless(page: Page, where: string): Promise<void> {
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    await expect(page.locator("html")).toHaveAttribute("data-theme", colorScheme);
    const found = await new AxeBuilder({ page }).analyze();
    expect(found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).join("; ")}`), `${where}, ${colorScheme}`).toEqual([]);
  }
}

// fits finds that nothing runs out of a window, in four sizes.
export async function fits(page: Page): Promise<void> {
  const before = page.viewportSize()!;
  for (const [width, height] of [[1024, 768], [1280, 720], [1920, 1080], [3840, 2160]] as const) {
    await page.setViewportSize({ width, height });
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), `${width}×${height}`).toBeLessThanOrEqual(0);
    await expect(page.getByRole("contentinfo"), `${width}×${height}`).toBeInViewport();
  }
  await page.setViewportSize(before);
}

// done has a long question answered, on a socket of its own; it returns the job's name.
export async function done(page: Page, verb: string, boats: string[], question: Record<string, unknown>): Promise<string> {
  return page.evaluate(([verb, boats, question]) => new Promise<string>((done, fail) => {
    const line = new WebSocket(new URL("live", location.href.replace(/^http/, "ws").replace(/#.*/, "")));
    let id = "";
    line.onopen = () => line.send(JSON.stringify({ lane: "asked", seq: 1, verb: "run", boats, question: { verb, boats, question } }));
    line.onmessage = (e) => {
      const told = JSON.parse(String(e.data)) as { lane?: string; error?: string; job?: { id: string; standing: string }; body?: { id: string; standing: string } };
      if (told.error) fail(new Error(told.error));
      if (told.lane === "asked") id = told.job?.id ?? "";
      const job = told.job ?? told.body;
      if (job?.id !== id || job.standing !== "done") return;
      line.close();
      done(id);
    };
  }), [verb, boats, question] as const);
}
