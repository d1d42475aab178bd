import type { Band, Chart, Num } from "./chart";
import { levelScale, padded, under, underHeight } from "./axis";
import { type Ink, colour, isNarrow, line, marker, n, page, slot, text, widthFor, widthOf, wrap } from "./paper";

type Spread = NonNullable<Chart["spread"]>;

// spread draws the boats' own bands beside one another, then paired differences: bands,
// median, and samples as dots of equal chance, about a zero line that is always there.
export function spread(c: Chart, s: Spread, ink: Ink): string {
  const width = widthFor(ink), side = isNarrow(ink) ? 14 : 60, left = side, right = width - side;
  let y = 0, out = "";
  if (s.boats.length > 1) {
    const own = alone(s, ink, left, right);
    out += own.out;
    y = own.height + 16;
  }
  let low = 0, high = 0;
  for (const p of s.pairs) {
    for (const v of [...p.bands.flatMap((b) => [b.from.at, b.to.at]), ...(p.dots ?? [])]) { low = Math.min(low, v); high = Math.max(high, v); }
  }
  const x = levelScale(padded(low, high, isNarrow(ink) ? 0.2 : 0.08), left, right);
  const top = y;
  let rows = "";
  s.pairs.forEach((p, i) => {
    const drawn = pair(p, ink, x, y, left, right, i === 0 ? p.dots_say : "");
    rows += drawn.out;
    y = drawn.bottom + 24;
  });
  return page(c, ink, width, y + underHeight(s.axis, ink) - 8, out + under(x, top + 22, y - 12, s.axis, ink) + rows);
}

function stands(b: Band, ink: Ink): boolean {
  return b.level === ink.how.level;
}

// alone draws each boat's own band, on a scale of its own above the differences.
function alone(s: Spread, ink: Ink, left: number, right: number): { out: string; height: number } {
  const all = s.boats.flatMap((b) => b.bands.flatMap((k) => [k.from.at, k.to.at]));
  const x = levelScale(padded(Math.min(...all), Math.max(...all), 0.3), left, right);
  let out = "";
  const row = 40;
  s.boats.forEach((b, i) => {
    const y = 30 + row * i, band = b.bands.find((k) => stands(k, ink)) ?? b.bands[0];
    out += nested(b.bands, ink, x, y, colour(ink, i)) + marker(slot(ink, i), x(b.middle.at), y, colour(ink, i), ink.page, 5.5);
    const says = `${b.name}  ${b.middle.text}  (${band.from.text} to ${band.to.text}, ${band.level})`;
    const half = widthOf(says, 11.5) / 2;
    out += text(Math.min(Math.max(x(b.middle.at), left + half), right - half), y - 13, says, { size: 11.5, anchor: "middle", weight: 600, halo: ink.page });
  });
  const bottom = 30 + row * s.boats.length - 18;
  return { out: under(x, 6, bottom, s.scale, ink) + out, height: bottom + underHeight(s.scale, ink) };
}

// nested draws bands in each other, the one that is asked for standing out.
function nested(bands: Band[], ink: Ink, x: (v: number) => number, y: number, stroke: string): string {
  return bands.map((b) => {
    const h = stands(b, ink) ? 14 : 6;
    return `<rect x="${n(x(b.from.at))}" y="${n(y - h / 2)}" width="${n(x(b.to.at) - x(b.from.at))}" height="${h}" fill="${stroke}" fill-opacity="${stands(b, ink) ? 0.32 : 0.14}" stroke="${stroke}" stroke-width="${stands(b, ink) ? 1.2 : 0.6}"/>`;
  }).join("");
}

function pair(p: Spread["pairs"][number], ink: Ink, x: (v: number) => number, y: number, left: number, right: number, say: string): { out: string; bottom: number } {
  const r = 8, one = `◂ ${p.second} faster: ${p.chances[1]}`, other = `${p.first} faster: ${p.chances[0]} ▸`;
  let out = text(left, y + 14, one, { size: 13, weight: 600, halo: ink.page });
  if (widthOf(one, 13.5) + widthOf(other, 13.5) > right - left) y += 18;
  out += text(right, y + 14, other, { size: 13, weight: 600, anchor: "end", halo: ink.page });
  if (say) {
    for (const l of wrap(`${say}; its mark is that of the faster boat`, 10.5, right - left)) { y += 15; out += text(left, y + 16, l, { size: 10.5, fill: ink.soft, halo: ink.page }); }
  }
  const stacks = stacked((p.dots ?? []).map((v) => x(v)), 2 * r);
  const tall = Math.max(0, ...stacks.map((d) => d[1] + 1)), base = y + 26 + tall * 2 * r;
  for (const [at, k] of stacks) {
    const boat = at < x(0) ? p.places[1] : p.places[0];
    out += marker(slot(ink, boat), at, base - r - 2 * r * k, colour(ink, boat), ink.page, r - 1.8);
  }
  const mid = base + 22;
  out += nested(p.bands, ink, x, mid, ink.soft);
  out += line(x(p.middle.at), mid - 12, x(p.middle.at), mid + 12, ink.page, 5) + line(x(p.middle.at), mid - 12, x(p.middle.at), mid + 12, ink.ink, 2.4);
  // figures under the band: nested intervals on lines of their own
  let under1 = mid + 28;
  out += centred(`median ${p.middle.text}`, x(p.middle.at), under1, left, right, { size: 12, weight: 600, halo: ink.page });
  for (const b of p.bands.slice().reverse()) {
    under1 += 19;
    out += interval(b, ink, x, under1);
  }
  return { out, bottom: under1 };
}

function interval(b: Band, ink: Ink, x: (v: number) => number, y: number): string {
  const a = x(b.from.at), e = x(b.to.at), weight = stands(b, ink) ? 700 : undefined;
  const end = (v: Num, at: number, anchor: "start" | "end") => text(at, y, v.text, { size: 11, anchor, weight, halo: ink.page });
  return line(a, y - 4, e, y - 4, ink.soft, 1) + line(a, y - 8, a, y, ink.soft, 1) + line(e, y - 8, e, y, ink.soft, 1) +
    end(b.from, a - 6, "end") + end(b.to, e + 6, "start") +
    (e - a > widthOf(b.level, 11) + 10
      ? text((a + e) / 2, y, b.level, { size: 11, anchor: "middle", weight, halo: ink.page })
      : text(e + 14 + widthOf(b.to.text, 11), y, b.level, { size: 11, fill: ink.soft, weight, halo: ink.page }));
}

function centred(s: string, at: number, y: number, left: number, right: number, style: { size: number; weight: number; halo: string }): string {
  const half = widthOf(s, style.size) / 2;
  return text(Math.min(Math.max(at, left + half), right - half), y, s, { ...style, anchor: "middle" });
}

// stacked piles marks of a size over a line, each above those that it would touch.
function stacked(at: number[], size: number): [number, number][] {
  const out: [number, number][] = [];
  for (const v of at) {
    const bin = Math.round(v / size) * size;
    out.push([bin, out.filter((o) => o[0] === bin).length]);
  }
  return out;
}
