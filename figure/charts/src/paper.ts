// Paper and ink: colours, text, the page that every picture stands on.

import type { Chart } from "./chart";

export interface Ink {
  name: string;
  page: string;
  ink: string;
  soft: string;
  faint: string;
  water: string;
  boats: string[];
  how: How;
}

// How is what a page asks of a drawing beside its theme. Slots fix colour, dash and
// marker of each boat of the chart, in its order.
export interface How {
  width?: number; // px
  slots?: number[];
  level?: string; // of the bands that stand out: "80 %"
  part?: "whole" | "picture"; // with title and foot, or without
  tag?: string; // tells drawings of one kind on a page apart
}

export function inkOf(theme: string, how: How = {}): Ink {
  const tag = how.tag ? "-" + how.tag : "";
  return theme === "dark"
    ? { how, name: "dark" + tag, page: "#14171c", ink: "#e9e6de", soft: "#a9adb2", faint: "#363c44", water: "#7fa3bd", boats: ["#5CB3F0", "#F59A4A", "#137B58", "#795B8D"] }
    : { how, name: "light" + tag, page: "#fcfbf7", ink: "#1c2024", soft: "#595f66", faint: "#d8d4c9", water: "#4f7690", boats: ["#0B6BB0", "#C2500A", "#153E29", "#4E0249"] };
}

// slot returns the slot of a chart's boat.
export function slot(ink: Ink, boat: number): number {
  return (ink.how.slots?.[boat] ?? boat) % 4;
}

export function colour(ink: Ink, boat: number): string {
  return ink.boats[slot(ink, boat)];
}

export const widest = 800;
const least = 300;

// widthFor returns how wide a drawing is.
export function widthFor(ink: Ink): number {
  return Math.max(least, ink.how.width ?? widest);
}

// narrow tells whether names stand above rows, since beside them there is no room.
export function isNarrow(ink: Ink): boolean {
  return widthFor(ink) < 620;
}

export const dashes = ["", "7 4", "2 4", "9 3 2 3"];

const sans = "Inter, 'Helvetica Neue', Helvetica, Arial, sans-serif";
const serif = "'Iowan Old Style', Palatino, 'Palatino Linotype', Georgia, serif";

export const margin = 28;

// n writes a place on the page, px: a tenth is as fine as can be seen.
export function n(v: number): string {
  const r = Math.round(v * 10) / 10;
  return Object.is(r, -0) ? "0" : String(r);
}

export function esc(s: string): string {
  return s.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}

// widthOf estimates a text's width on the safe side, since no page measures it here.
export function widthOf(s: string, size: number): number {
  let w = 0;
  for (const c of s) {
    if ("iljt.,:;'|!()[] ".includes(c)) w += 0.3;
    else if ("mwMW%—".includes(c)) w += 0.86;
    else if (c >= "A" && c <= "Z") w += 0.7;
    else w += 0.56;
  }
  return w * size;
}

export function wrap(s: string, size: number, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of s.split(" ")) {
    const longer = line === "" ? word : line + " " + word;
    if (line !== "" && widthOf(longer, size) > width) {
      lines.push(line);
      line = word;
    } else {
      line = longer;
    }
  }
  if (line !== "") lines.push(line);
  return lines;
}

export interface TextStyle { size?: number; fill?: string; anchor?: "start" | "middle" | "end"; weight?: number; serif?: true; halo?: string }

export function text(x: number, y: number, s: string, t: TextStyle = {}): string {
  const size = t.size ?? 12;
  return `<text x="${n(x)}" y="${n(y)}" font-size="${size}"` +
    (t.fill ? ` fill="${t.fill}"` : "") +
    (t.anchor && t.anchor !== "start" ? ` text-anchor="${t.anchor}"` : "") +
    (t.weight ? ` font-weight="${t.weight}"` : "") +
    (t.serif ? ` font-family="${serif}"` : "") +
    (t.halo ? ` stroke="${t.halo}" stroke-width="4.5" stroke-linejoin="round" paint-order="stroke"` : "") +
    `>${esc(s)}</text>`;
}

export function line(x1: number, y1: number, x2: number, y2: number, stroke: string, width = 1, dash = ""): string {
  return `<line x1="${n(x1)}" y1="${n(y1)}" x2="${n(x2)}" y2="${n(y2)}" stroke="${stroke}" stroke-width="${width}"${dash ? ` stroke-dasharray="${dash}"` : ""}/>`;
}

export function path(d: string, attributes: string): string {
  return `<path d="${d}" ${attributes}/>`;
}

export function polyline(points: [number, number][], closed: "open" | "closed" = "open"): string {
  return points.map((p, i) => (i ? "L" : "M") + n(p[0]) + " " + n(p[1])).join("") + (closed === "closed" ? "Z" : "");
}

// marker is a boat's mark: each boat has its own shape.
export function marker(boat: number, x: number, y: number, fill: string, page: string, r = 4.5): string {
  const a = `fill="${fill}" stroke="${page}" stroke-width="1.2"`;
  switch (boat % 4) {
    case 1: return `<rect x="${n(x - r)}" y="${n(y - r)}" width="${n(2 * r)}" height="${n(2 * r)}" ${a}/>`;
    case 2: return path(polyline([[x, y - r * 1.2], [x + r * 1.1, y + r * 0.8], [x - r * 1.1, y + r * 0.8]], "closed"), a);
    case 3: return path(polyline([[x, y - r * 1.3], [x + r * 1.3, y], [x, y + r * 1.3], [x - r * 1.3, y]], "closed"), a);
  }
  return `<circle cx="${n(x)}" cy="${n(y)}" r="${n(r)}" ${a}/>`;
}

// hatch defines a fill of lines: up (/) or down (\) across a tint.
export function hatch(id: string, stroke: string, back: string, way: "up" | "down" | "level", gap = 6): string {
  const turn = way === "up" ? 45 : way === "down" ? -45 : 90;
  return `<pattern id="${id}" width="${gap}" height="${gap}" patternUnits="userSpaceOnUse" patternTransform="rotate(${turn})">` +
    `<rect width="${gap}" height="${gap}" fill="${back}"/><line x1="0" y1="0" x2="0" y2="${gap}" stroke="${stroke}" stroke-width="2.4"/></pattern>`;
}

// balanced breaks a text into as few lines as there must be, and these about as long as each
// other.
function balanced(s: string, size: number, width: number): string[] {
  let lines = wrap(s, size, width);
  for (let less = width * 0.95; less > width / 2; less *= 0.95) {
    const shorter = wrap(s, size, less);
    if (shorter.length > lines.length) break;
    lines = shorter;
  }
  return lines;
}

// bold is how much wider than usual type the serif of titles is, where it is at its widest.
const bold = 1.15;

// page puts a picture of a height on paper: title, what it shows, picture, foot.
export function page(c: Chart, ink: Ink, width: number, height: number, body: string): string {
  const id = `fw-${c.kind}-${ink.name}`;
  const open = (total: number) =>
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${n(width)} ${total}" width="${n(width)}" height="${total}" role="img" aria-labelledby="${id}-title ${id}-desc" font-family="${sans}" fill="${ink.ink}" style="font-variant-numeric:tabular-nums">` +
    `<title id="${id}-title">${esc(c.title)}</title><desc id="${id}-desc">${esc(c.summary)}</desc>`;
  if (ink.how.part === "picture") return `${open(Math.ceil(height + 4))}<g transform="translate(0 4)">${body}</g></svg>\n`;
  const side = width < 620 ? 14 : margin, inner = width - 2 * side;
  const big = width < 620 ? 17 : 20;
  let y = margin + 14;
  let head = "";
  for (const l of balanced(c.title, big * bold, inner)) {
    head += text(side, y, l, { size: big, weight: 600, serif: true });
    y += big + 5;
  }
  for (const l of wrap(c.under, 12.5, inner)) {
    head += text(side, y, l, { size: 12.5, fill: ink.soft });
    y += 17;
  }
  const top = y + 8;
  y = top + height + 18;
  let foot = line(side, y - 14, width - side, y - 14, ink.faint, 0.8);
  for (const part of c.foot) {
    for (const l of wrap(part, 10, inner)) {
      foot += text(side, y, l, { size: 10, fill: ink.soft });
      y += 13.5;
    }
  }
  const total = Math.ceil(y + 6);
  return `${open(total)}<rect width="${n(width)}" height="${total}" fill="${ink.page}"/>${head}<g transform="translate(0 ${n(top)})">${body}</g>${foot}</svg>\n`;
}

// apart moves places along a line so that none is nearer to the next than a gap,
// in their order, within bounds where there is room.
export function apart(at: number[], gap: number, low: number, high: number): number[] {
  const order = at.map((_, i) => i).sort((a, b) => at[a] - at[b] || a - b);
  const out = at.slice();
  let floor = low;
  for (const i of order) {
    out[i] = Math.max(at[i], floor);
    floor = out[i] + gap;
  }
  let roof = high;
  for (const i of order.slice().reverse()) {
    out[i] = Math.min(out[i], roof);
    roof = out[i] - gap;
  }
  return out;
}
