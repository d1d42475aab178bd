import type { Angles, Chart } from "./chart";
import { levelScale, under, underHeight } from "./axis";
import { type Ink, colour, hatch, isNarrow, line, n, page, text, widthFor, widthOf, wrap } from "./paper";

// crossovers draws the best mode and sails along the wind angle, a row for each boat in
// each wind.
export function crossovers(c: Chart, a: Angles, ink: Ink): string {
  const width = widthFor(ink), narrow = isNarrow(ink);
  const names = Math.max(...a.winds.map((w) => widthOf(w.name, 13)));
  const left = narrow ? 14 : Math.max(90, Math.min(names + 24, 190)), right = width - (narrow ? 14 : 40), row = 62 + (narrow ? 16 : 0), top = 8;
  const all = a.winds.flatMap((w) => w.ways.flatMap((r) => [r.from, r.to]).concat(w.gaps.flat()));
  const x = levelScale([Math.min(...all) - 2, Math.max(...all) + 2], left, right);
  const bottom = top + row * a.winds.length;
  const ways = Array.from(new Set(a.winds.flatMap((w) => w.ways.map((r) => r.name))));
  const id = `fw-${c.kind}-${ink.name}`;
  const tints = ways.map((_, i) => (["up", "down", "level"] as const)[i % 3]);
  let out = `<defs>${ways.map((_, i) => hatch(`${id}-${i}`, ink.faint, ink.page, tints[i], 5 + 2 * i)).join("")}</defs>`;
  out += under(x, top, bottom, "true wind angle (deg)", ink, 12);
  a.winds.forEach((w, i) => {
    const h = 36, y = top + row * i + 20 + (narrow ? 16 : 0);
    out += narrow ? text(left, y - 20, w.name, { size: 13, weight: 600, halo: ink.page }) : text(left - 14, y + h / 2 + 4, w.name, { size: 13, weight: 600, anchor: "end" });
    for (const g of w.gaps) out += line(x(g[0]), y + h / 2, x(g[1]), y + h / 2, ink.soft, 1, "2 4") + (x(g[1]) - x(g[0]) > 70 ? text((x(g[0]) + x(g[1])) / 2, y + h / 2 - 5, "cannot sail", { size: 10.5, fill: ink.soft, anchor: "middle", halo: ink.page }) : "");
    for (const r of w.ways) {
      const wide = Math.max(3, x(r.to) - x(r.from)), k = ways.indexOf(r.name);
      out += `<rect x="${n(x(r.from))}" y="${n(y)}" width="${n(wide)}" height="${h}" fill="url(#${id}-${k})" stroke="${colour(ink, w.boat)}" stroke-width="1.5"><title>${r.name}</title></rect>`;
      const parts = widthOf(r.name, 12) < wide - 8 ? [r.name] : r.name.split(", ");
      if (Math.max(...parts.map((p) => widthOf(p, 12))) < wide - 6) parts.forEach((p, j) => { out += text(x(r.from) + wide / 2, y + h / 2 + 4 + (j - (parts.length - 1) / 2) * 14, p, { size: 12, anchor: "middle", halo: ink.page }); });
      else out += text(x(r.from) + wide / 2, y + h / 2 + 4, String(k + 1), { size: 11, anchor: "middle", halo: ink.page });
    }
    for (const k of w.crossovers) out += line(x(k.angle), y - 4, x(k.angle), y + h, ink.ink, 2) + text(x(k.angle), y - 7, k.text, { size: 11, weight: 700, anchor: "middle", halo: ink.page });
  });
  let y = bottom + underHeight("true wind angle (deg)", ink) + 10;
  if (ways.length > 1) ways.forEach((name, i) => { for (const l of wrap(`${i + 1}  ${name}`, 11, right - left)) { out += text(left, y, l, { size: 11, fill: ink.soft }); y += 15; } });
  return page(c, ink, width, y, out);
}
