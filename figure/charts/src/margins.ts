import type { Chart } from "./chart";
import { type Ink, line, marker, n, page, path, polyline, text } from "./paper";

// margins draws each limit as a track between its bounds, with the boat on it, and
// the price of those that hold her. Tracks with an open side are not to scale.
export function margins(c: Chart, m: NonNullable<Chart["margins"]>, ink: Ink): string {
  const width = 800, name = 200, left = 300, right = 520, row = 31;
  let out = text(name, 8, "limit", { size: 10.5, fill: ink.soft, anchor: "end" }) + text(left - 8, 8, "lower bound", { size: 10.5, fill: ink.soft, anchor: "end" }) +
    text(right + 8, 8, "upper bound", { size: 10.5, fill: ink.soft }) + text(600, 8, "room left, or what more is worth", { size: 10.5, fill: ink.soft });
  m.rows.forEach((r, i) => {
    const y = 36 + row * i, held = r.stand !== "inside";
    const openLow = r.lower === "", openHigh = r.upper === "";
    out += text(name, y + 4, r.name, { size: 12.5, anchor: "end", weight: held ? 700 : undefined });
    const a = openLow ? left + 12 : left, b = openHigh ? right - 12 : right;
    out += line(a, y, b, y, ink.soft, 1, openLow || openHigh ? "3 3" : "");
    if (openLow) out += path(polyline([[left + 14, y - 4], [left + 6, y], [left + 14, y + 4]]), `fill="none" stroke="${ink.soft}"`);
    else out += line(left, y - 7, left, y + 7, ink.ink, 1.4) + text(left - 12, y + 4, r.lower, { size: 11, anchor: "end", fill: ink.soft });
    if (openHigh) out += path(polyline([[right - 14, y - 4], [right - 6, y], [right - 14, y + 4]]), `fill="none" stroke="${ink.soft}"`);
    else out += line(right, y - 7, right, y + 7, ink.ink, 1.4) + text(right + 12, y + 4, r.upper, { size: 11, fill: ink.soft });
    const at = r.at ?? (held ? (openHigh ? 0 : 1) : 0.5);
    const x = left + at * (right - left);
    out += held
      ? marker(3, x, y, ink.boats[0], ink.page, 6.5)
      : `<circle cx="${n(x)}" cy="${n(y)}" r="4.5" fill="${ink.page}" stroke="${ink.boats[0]}" stroke-width="2"/>`;
    if (!held || r.at === null) {
      const anchor = at < 0.15 ? "start" : at > 0.85 ? "end" : "middle";
      out += text(x, y - 8, r.value, { size: 10.5, anchor, halo: ink.page });
    }
    out += held
      ? text(600, y + 4, r.price, { size: 12, weight: 700 })
      : text(600, y + 4, r.room, { size: 12, fill: ink.soft });
  });
  const bottom = 36 + row * m.rows.length;
  out += text(28, bottom + 6, "filled diamond: on the bound, with what a step more room would gain in progress · ring: inside · dashed: one side is open, not to scale", { size: 10.5, fill: ink.soft });
  return page(c, ink, width, bottom + 10, out);
}
