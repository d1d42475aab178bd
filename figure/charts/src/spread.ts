import type { Chart } from "./chart";
import { levelScale, padded, under } from "./axis";
import { type Ink, line, n, page, text, widthOf } from "./paper";

// spread draws paired differences: bands, median, and samples as dots of equal
// chance, about a zero line that is always there.
export function spread(c: Chart, s: NonNullable<Chart["spread"]>, ink: Ink): string {
  const width = 800, left = 60, right = width - 60;
  let low = 0, high = 0;
  for (const p of s.pairs) {
    for (const v of [p.bands[0].from.at, p.bands[0].to.at, ...(p.dots ?? [])]) { low = Math.min(low, v); high = Math.max(high, v); }
  }
  const x = levelScale(padded(low, high, 0.08), left, right);
  let y = 0, out = "";
  for (const p of s.pairs) {
    const r = 8;
    const stacks = stacked((p.dots ?? []).map((v) => x(v)), 2 * r);
    const tall = Math.max(1, ...stacks.map((d) => d[1] + 1));
    out += text(left, y + 14, `◂ ${p.second} faster: ${p.chances[1]}`, { size: 13, weight: 600 }) +
      text(right, y + 14, `${p.first} faster: ${p.chances[0]} ▸`, { size: 13, weight: 600, anchor: "end" });
    const base = y + 38 + tall * 2 * r;
    for (const [at, k] of stacks) {
      const second = at < x(0);
      out += second
        ? `<rect x="${n(at - r + 2)}" y="${n(base - 2 * r * (k + 1) + 2)}" width="${n(2 * r - 4)}" height="${n(2 * r - 4)}" fill="${ink.boats[1]}"/>`
        : `<circle cx="${n(at)}" cy="${n(base - r - 2 * r * k)}" r="${r - 1.5}" fill="${ink.boats[0]}"/>`;
    }
    const mid = base + 26, heights = [5, 11, 18];
    p.bands.forEach((b, i) => {
      const a = x(b.from.at), e = x(b.to.at), h = heights[i];
      out += `<rect x="${n(a)}" y="${n(mid - h / 2)}" width="${n(e - a)}" height="${h}" fill="${i === 2 ? ink.soft : ink.faint}" stroke="${ink.soft}" stroke-width="0.8"/>`;
    });
    out += line(x(p.middle.at), mid - 13, x(p.middle.at), mid + 13, ink.page, 5) + line(x(p.middle.at), mid - 13, x(p.middle.at), mid + 13, ink.ink, 2.4);
    // figures under the band: nested intervals on lines of their own
    let under1 = mid + 30;
    out += text(x(p.middle.at), under1, `median ${p.middle.text}`, { size: 12, weight: 600, anchor: "middle", halo: ink.page });
    for (const b of [p.bands[2], p.bands[1], p.bands[0]]) {
      under1 += 19;
      const a = x(b.from.at), e = x(b.to.at), words = b.level;
      out += line(a, under1 - 4, e, under1 - 4, ink.soft, 1) + line(a, under1 - 8, a, under1, ink.soft, 1) + line(e, under1 - 8, e, under1, ink.soft, 1);
      out += text(a - 6, under1, b.from.text, { size: 11, anchor: "end", halo: ink.page }) + text(e + 6, under1, b.to.text, { size: 11, halo: ink.page });
      if (e - a > widthOf(words, 11) + 10) out += text((a + e) / 2, under1, words, { size: 11, anchor: "middle", halo: ink.page });
      else out += text(e + 12 + widthOf(b.to.text, 11), under1, words, { size: 11, fill: ink.soft, halo: ink.page });
    }
    y = under1 + 30;
  }
  const says = s.pairs[0].dots_say;
  const note = says ? text(left, y + 54, `${says}; round: first boat faster, square: second faster`, { size: 10.5, fill: ink.soft }) : "";
  return page(c, ink, width, y + 60, under(x, 22, y, s.axis, ink) + out + note);
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
