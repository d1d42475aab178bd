import type { Chart } from "./chart";
import { levelScale, under } from "./axis";
import { type Ink, hatch, line, n, page, text} from "./paper";

// bars draws rows of bars from one zero line, a bar for each boat, each with its
// figure, in the first row and those of sums with the boat's name.
export function bars(c: Chart, b: NonNullable<Chart["bars"]>, ink: Ink): string {
  const width = 800, left = 250, right = width - 120;
  const each = 15, gap = 12;
  let low = 0, high = 0;
  for (const r of b.rows) for (const v of r.bars) if (v) { low = Math.min(low, v.at); high = Math.max(high, v.at); }
  const room = (high - low) * 0.02;
  const x = levelScale([low < 0 ? low - room * 8 : 0, high + room], left, right);
  const id = `fw-${c.kind}-${ink.name}`;
  const ways = ["", "up", "down", "level"] as const;
  let defs = "";
  b.boats.forEach((_, i) => { const way = ways[i % 4]; if (way) defs += hatch(`${id}-${i}`, ink.boats[i % 4], ink.page, way, 5); });
  let y = 4;
  const top = y - 4;
  let rows = "";
  for (const r of b.rows) {
    const h = each * r.bars.length, sum = r.rank === "sum";
    if (sum) rows += line(margin0, y - gap / 2, right, y - gap / 2, ink.soft, 0.8);
    rows += text(left - 14, y + h / 2 + 4.5, r.name, { size: 12.5, anchor: "end", weight: sum ? 700 : undefined });
    const named = sum || r === b.rows[0];
    r.bars.forEach((v, i) => {
      if (!v) return;
      const words = named ? `${v.text}  ${b.boats[i]}` : v.text;
      const a = x(0), e = x(v.at), lo = Math.min(a, e);
      rows += bar(lo, y + i * each + 1.5, Math.max(1.2, Math.abs(e - a)), each - 3, i);
      rows += v.at < 0
        ? text(lo - 5, y + i * each + 11.5, words, { size: 11, anchor: "end", weight: named ? 700 : undefined, halo: ink.page })
        : text(Math.max(a, e) + 5, y + i * each + 11.5, words, { size: 11, weight: named ? 700 : undefined, halo: ink.page });
    });
    y += h + gap + (sum ? 8 : 0);
  }
  const axis = under(x, top, y - 2, b.axis, ink);
  return page(c, ink, width, y + 40, `<defs>${defs}</defs>${axis}${rows}`);

  function bar(x0: number, y0: number, w: number, h: number, i: number): string {
    const colour = ink.boats[i % 4];
    return `<rect x="${n(x0)}" y="${n(y0)}" width="${n(w)}" height="${n(h)}" fill="${ways[i % 4] ? `url(#${id}-${i})` : colour}" stroke="${colour}" stroke-width="1"/>`;
  }
}

const margin0 = 28;
