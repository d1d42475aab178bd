import type { Chart } from "./chart";
import { levelScale, under, underHeight } from "./axis";
import { type Ink, colour, hatch, isNarrow, line, n, page, slot, text, widthFor, widthOf } from "./paper";

// bars draws rows of bars from one zero line, a bar for each boat, each with its
// figure, in the first row and those of sums with the boat's name.
export function bars(c: Chart, b: NonNullable<Chart["bars"]>, ink: Ink): string {
  const width = widthFor(ink), narrow = isNarrow(ink);
  const each = 15, gap = 12, above = narrow ? 16 : 0;
  const named = (i: number) => b.rows[i].rank === "sum" || i === 0;
  const words = (i: number, k: number) => (named(i) ? `${b.rows[i].bars[k]!.text}  ${b.boats[k]}` : b.rows[i].bars[k]!.text);
  let low = 0, high = 0, before = 0, after = 0;
  b.rows.forEach((r, i) => r.bars.forEach((v, k) => {
    if (!v) return;
    low = Math.min(low, v.at);
    high = Math.max(high, v.at);
    const room = widthOf(words(i, k), 11) + 12;
    if (v.at < 0) before = Math.max(before, room);
    else after = Math.max(after, room);
  }));
  const left = narrow ? 14 : Math.min(250, width * 0.31), right = width - after - 6;
  const x = levelScale([low, high], left + before, Math.max(left + before + 60, right));
  const id = `fw-${c.kind}-${ink.name}`;
  const ways = ["", "up", "down", "level"] as const;
  let defs = "";
  b.boats.forEach((_, k) => { const way = ways[slot(ink, k)]; if (way) defs += hatch(`${id}-${k}`, colour(ink, k), ink.page, way, 5); });
  let y = 4;
  const top = y - 4;
  let rows = "";
  b.rows.forEach((r, i) => {
    const h = each * r.bars.length, sum = r.rank === "sum";
    if (sum) rows += line(narrow ? left : 28, y - gap / 2, width - 14, y - gap / 2, ink.soft, 0.8);
    rows += narrow
      ? `<rect x="${n(left)}" y="${n(y)}" width="${n(widthOf(r.name, sum ? 13 : 12) + 2)}" height="14" fill="${ink.page}"/>` + text(left, y + 11, r.name, { size: 12, weight: sum ? 700 : undefined, halo: ink.page })
      : text(left - 14, y + h / 2 + 4.5, r.name, { size: 12.5, anchor: "end", weight: sum ? 700 : undefined });
    y += above;
    r.bars.forEach((v, k) => {
      if (!v) return;
      const a = x(0), e = x(v.at), lo = Math.min(a, e), yk = y + k * each;
      rows += bar(lo, yk + 1.5, Math.max(1.2, Math.abs(e - a)), each - 3, k);
      rows += v.at < 0
        ? text(lo - 5, yk + 11.5, words(i, k), { size: 11, anchor: "end", weight: named(i) ? 700 : undefined, halo: ink.page })
        : text(Math.max(a, e) + 5, yk + 11.5, words(i, k), { size: 11, weight: named(i) ? 700 : undefined, halo: ink.page });
    });
    y += h + gap + (sum ? 8 : 0);
  });
  return page(c, ink, width, y + underHeight(b.axis, ink), `<defs>${defs}</defs>${under(x, top, y - 2, b.axis, ink)}${rows}`);

  function bar(x0: number, y0: number, w: number, h: number, k: number): string {
    return `<rect x="${n(x0)}" y="${n(y0)}" width="${n(w)}" height="${n(h)}" fill="${ways[slot(ink, k)] ? `url(#${id}-${k})` : colour(ink, k)}" stroke="${colour(ink, k)}" stroke-width="1"/>`;
  }
}
