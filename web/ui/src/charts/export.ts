// Charts as files: with title, units, level, version and inputs on them.

import type { Chart } from "@charts/chart";
import { draw } from "@charts/main";

// dated adds to a chart's foot when it was taken out; the fingerprint beside it tells of
// which inputs it is.
export function dated(chart: Chart, level: string, day = new Date().toISOString().slice(0, 10)): Chart {
  const banded = chart.spread || chart.winds?.boats.some((b) => b.points.some((p) => p.bands.length > 0));
  return { ...chart, foot: [...chart.foot, `${banded ? `bands of ${level} · ` : ""}inputs as of ${day}`] };
}

export function pictureOf(chart: Chart, slots: number[], theme: "light" | "dark", level: string): string {
  return draw(dated(chart, level), theme, { width: 800, slots, level, tag: "out" });
}

export const sharp = 2; // pixels of a PNG for one of the drawing

// pngOf draws an SVG on a canvas. An image knows no font of the page, so that the page's
// own goes with it.
export async function pngOf(svg: string): Promise<Blob> {
  const withFont = svg.replace(/(<svg[^>]*>)/, `$1<style>${await fonts()}</style>`);
  const url = URL.createObjectURL(new Blob([withFont], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = image.naturalWidth * sharp;
    canvas.height = image.naturalHeight * sharp;
    const context = canvas.getContext("2d");
    if (!context) throw new Error("no canvas");
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done, fail) => canvas.toBlob((b) => (b ? done(b) : fail(new Error("no picture"))), "image/png"));
  } finally {
    URL.revokeObjectURL(url);
  }
}

let inlined: Promise<string> | undefined;

// fonts returns the page's font faces with their files inside.
function fonts(): Promise<string> {
  inlined ??= (async () => {
    const faces = Array.from(document.styleSheets).flatMap((s) => Array.from(s.cssRules)).filter((r): r is CSSFontFaceRule => r instanceof CSSFontFaceRule);
    const texts = await Promise.all(faces.map(async (f) => {
      const at = /url\(["']?([^"')]+)["']?\)/.exec(f.style.getPropertyValue("src"))?.[1];
      if (!at) return "";
      const base = f.parentStyleSheet?.href ?? location.href;
      const file = await (await fetch(new URL(at, base))).arrayBuffer();
      let letters = "";
      for (const b of new Uint8Array(file)) letters += String.fromCharCode(b);
      return f.cssText.replace(/url\([^)]*\)/, `url("data:font/woff2;base64,${btoa(letters)}")`);
    }));
    return texts.join("\n");
  })();
  return inlined;
}

// csvOf writes the table behind a chart as a spreadsheet reads it. Heads name the units.
export function csvOf(chart: Chart): string {
  const cell = (s: string) => (/[",\n]/.test(s) ? `"${s.replace(/"/g, '""')}"` : s);
  const table = chart.table ?? { head: [], rows: [] };
  return [table.head, ...table.rows].map((r) => r.map(cell).join(",") + "\n").join("");
}

export function slug(chart: Chart): string {
  return `${chart.kind}-${chart.title}`.toLowerCase().replace(/[^a-z0-9]+/g, "-").slice(0, 60).replace(/-$/, "");
}

export function save(what: Blob, name: string): void {
  const a = document.createElement("a");
  a.href = URL.createObjectURL(what);
  a.download = name;
  a.click();
  setTimeout(() => URL.revokeObjectURL(a.href), 1000);
}
