import type { Chart } from "./chart";
import { levelScale, padded, under, underHeight } from "./axis";
import { type Ink, esc, hatch, isNarrow, n, page, text, widthFor, widthOf, wrap } from "./paper";

// tornado draws what each input does to a figure at either end of its spread.
export function tornado(c: Chart, t: NonNullable<Chart["tornado"]>, ink: Ink): string {
  const width = widthFor(ink), narrow = isNarrow(ink);
  const left = narrow ? 14 : Math.min(350, width * 0.44), right = width - (narrow ? 14 : 60), above = narrow ? 18 : 0, row = 34 + above;
  let low = 0, high = 0;
  for (const r of t.rows) for (const v of [r.low, r.high]) if (v) { low = Math.min(low, v.at); high = Math.max(high, v.at); }
  const x = levelScale(padded(low, high, narrow ? 0.22 : 0.14), left, right);
  const id = `fw-${c.kind}-${ink.name}`;
  const bottom = 24 + row * t.rows.length;
  let out = `<defs>${hatch(id + "-low", ink.soft, ink.page, "down", 5)}</defs>` + under(x, 20, bottom, t.axis, ink);
  out += `<rect x="${n(left)}" y="0" width="18" height="11" fill="url(#${id}-low)" stroke="${ink.soft}"/>` + text(left + 24, 10, "at its 10 % end", { size: 11, fill: ink.soft }) +
    `<rect x="${n(left + 130)}" y="0" width="18" height="11" fill="${ink.soft}"/>` + text(left + 154, 10, "at its 90 % end", { size: 11, fill: ink.soft });
  t.rows.forEach((r, i) => {
    let y = 24 + row * i;
    if (narrow) {
      const name = cut(r.name, 12, width - 40 - widthOf(r.says, 10));
      out += text(left, y + 14, name, { size: 12, halo: ink.page }) + text(width - 14, y + 14, r.says, { size: 10, fill: ink.soft, anchor: "end", halo: ink.page });
      y += above - 4;
    } else {
      out += text(left - 12, y + 14, cut(r.name, 12, left - 24), { size: 12, anchor: "end" }) + text(left - 12, y + 27, r.says, { size: 10, fill: ink.soft, anchor: "end" });
    }
    for (const [v, fill] of [[r.low, `url(#${id}-low)`], [r.high, ink.soft]] as const) {
      if (!v) continue;
      const same = r.low !== null && r.high !== null && r.low.at * r.high.at > 0;
      const h = same ? 9 : 18, y0 = y + 7 + (same && v === r.high ? 9 : 0);
      const a = x(0), e = x(v.at);
      out += `<rect x="${n(Math.min(a, e))}" y="${n(y0)}" width="${n(Math.max(1, Math.abs(e - a)))}" height="${h}" fill="${fill}" stroke="${ink.soft}"><title>${esc(r.name + " " + v.text)}</title></rect>`;
      out += text(e + (v.at < 0 ? -6 : 6), y0 + h / 2 + 4, v.text, { size: same ? 9.5 : 11, anchor: v.at < 0 ? "end" : "start", halo: ink.page });
    }
    const one = r.low ?? r.high;
    if (!r.low || !r.high) out += text(x(0) + (one && one.at > 0 ? -8 : 8), y + 20, "cannot sail at one end", { size: 10, fill: ink.soft, anchor: one && one.at > 0 ? "end" : "start", halo: ink.page });
  });
  return page(c, ink, width, bottom + underHeight(t.axis, ink), out);
}

// cut shortens a name to a line.
function cut(name: string, size: number, width: number): string {
  const first = wrap(name, size, width)[0];
  return first === name ? name : first + " …";
}
