import type { Chart, Margin } from "./chart";
import { type Ink, colour, isNarrow, line, marker, n, page, path, polyline, slot, text, widthFor, widthOf, wrap } from "./paper";

// margins draws each limit as a track between its bounds, with the boat on it, and
// the price of those that hold her. Tracks with an open side are not to scale.
export function margins(c: Chart, m: NonNullable<Chart["margins"]>, ink: Ink): string {
  const width = widthFor(ink);
  const body = isNarrow(ink) ? stacked(m.rows, ink, width) : abreast(m.rows, ink, width);
  let y = body.bottom + 6, out = body.out;
  const left = isNarrow(ink) ? 14 : 28;
  for (const l of wrap("filled diamond: on the bound, with what a step more room would gain in progress · ring: inside · dashed: one side is open, not to scale", 10.5, width - 2 * left)) {
    out += text(left, y, l, { size: 10.5, fill: ink.soft });
    y += 14;
  }
  return page(c, ink, width, y - 4, out);
}

interface Body { out: string; bottom: number }

function abreast(rows: Margin[], ink: Ink, width: number): Body {
  const k = width / 800, name = 200 * k, left = 300 * k, right = 520 * k, says = 600 * k, row = 31;
  let out = text(name, 8, "limit", { size: 10.5, fill: ink.soft, anchor: "end" }) + text(left - 8, 8, "lower bound", { size: 10.5, fill: ink.soft, anchor: "end" }) +
    text(right + 8, 8, "upper bound", { size: 10.5, fill: ink.soft }) + text(says, 8, "room left, or what more is worth", { size: 10.5, fill: ink.soft });
  rows.forEach((r, i) => {
    const y = 36 + row * i, held = r.stand !== "inside";
    out += text(name, y + 4, r.name, { size: 12.5, anchor: "end", weight: held ? 700 : undefined });
    out += track(r, ink, left, right, y) + (held ? text(says, y + 4, r.price, { size: 12, weight: 700 }) : text(says, y + 4, r.room, { size: 12, fill: ink.soft }));
    if (r.lower) out += text(left - 12, y + 4, r.lower, { size: 11, anchor: "end", fill: ink.soft });
    if (r.upper) out += text(right + 12, y + 4, r.upper, { size: 11, fill: ink.soft });
  });
  return { out, bottom: 36 + row * rows.length };
}

function stacked(rows: Margin[], ink: Ink, width: number): Body {
  const sides = (r: Margin) => [r.lower ? widthOf(r.lower, 11) + 20 : 0, r.upper ? widthOf(r.upper, 11) + 20 : 0];
  const left = 14 + Math.max(...rows.map((r) => sides(r)[0])), right = width - 14 - Math.max(...rows.map((r) => sides(r)[1]));
  let y = 12, out = "";
  for (const r of rows) {
    const held = r.stand !== "inside", says = held ? r.price : r.room === "" ? "" : r.room + " left";
    if (y > 12) out += line(14, y - 17, width - 14, y - 17, ink.faint, 0.8);
    out += text(14, y, r.name, { size: 12.5, weight: held ? 700 : undefined });
    if (widthOf(r.name, 13) + widthOf(says, 12) > width - 40) y += 16;
    out += text(width - 14, y, says, { size: 12, anchor: "end", weight: held ? 700 : undefined, fill: held ? undefined : ink.soft });
    y += 27;
    out += track(r, ink, left, right, y);
    if (r.lower) out += text(left - 12, y + 4, r.lower, { size: 11, anchor: "end", fill: ink.soft });
    if (r.upper) out += text(right + 12, y + 4, r.upper, { size: 11, fill: ink.soft });
    y += 34;
  }
  return { out, bottom: y };
}

function track(r: Margin, ink: Ink, left: number, right: number, y: number): string {
  const held = r.stand !== "inside", openLow = r.lower === "", openHigh = r.upper === "";
  let out = line(openLow ? left + 12 : left, y, openHigh ? right - 12 : right, y, ink.soft, 1, openLow || openHigh ? "3 3" : "");
  out += openLow ? path(polyline([[left + 14, y - 4], [left + 6, y], [left + 14, y + 4]]), `fill="none" stroke="${ink.soft}"`) : line(left, y - 7, left, y + 7, ink.ink, 1.4);
  out += openHigh ? path(polyline([[right - 14, y - 4], [right - 6, y], [right - 14, y + 4]]), `fill="none" stroke="${ink.soft}"`) : line(right, y - 7, right, y + 7, ink.ink, 1.4);
  const at = r.at ?? (held ? (openHigh ? 0 : 1) : 0.5), x = left + at * (right - left);
  out += held
    ? marker(3, x, y, colour(ink, 0), ink.page, 6.5)
    : `<circle cx="${n(x)}" cy="${n(y)}" r="4.5" fill="${ink.page}" stroke="${colour(ink, 0)}" stroke-width="2"${slot(ink, 0) ? ` stroke-dasharray="3 1.5"` : ""}/>`;
  if (!held || r.at === null) out += text(x, y - 8, r.value, { size: 10.5, anchor: at < 0.15 ? "start" : at > 0.85 ? "end" : "middle", halo: ink.page });
  return out;
}
