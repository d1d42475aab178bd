import type { Chart, Waterfall } from "./chart";
import { levelScale, padded, under } from "./axis";
import { type Ink, esc, hatch, line, marker, n, page, path, polyline, text, widthOf, wrap } from "./paper";

// waterfall draws rows from the first boat to the second. The scale starts off zero,
// which the broken ends of both whole bars show.
export function waterfall(c: Chart, w: Waterfall, ink: Ink): string {
  const width = 800, left = 230, right = width - 120, row = 40, top = 4;
  const levels = [w.first.at];
  for (const s of w.steps) levels.push(levels[levels.length - 1] + s.at);
  const [low, high] = padded(Math.min(...levels, w.last.at), Math.max(...levels, w.last.at), 0.22);
  const x = levelScale([low, high], left, right);
  const bottom = top + row * (w.steps.length + 2);
  const id = `fw-${c.kind}-${ink.name}`;
  let out = `<defs>${hatch(id + "-more", ink.soft, ink.page, "up")}${hatch(id + "-less", ink.ink, ink.faint, "down")}</defs>`;
  out += under(x, top, bottom, w.axis, ink);
  const label = (y: number, name: string, said: string) => {
    const lines = wrap(name, 13, left - 44).slice(0, 2);
    return lines.map((l, i) => text(left - 16, y + 20 + i * 14 - (said || lines.length > 1 ? 7 : 0), l, { size: 13, anchor: "end", weight: said ? 400 : 600 })).join("") +
      (said ? text(left - 16, y + 29 + (lines.length - 1) * 8, said, { size: 10, fill: ink.soft, anchor: "end" }) : "");
  };
  const whole = (i: number, boat: number, v: { name: string; at: number; text: string }) => {
    const y = top + row * i, h = row - 18, y0 = y + 9, end = x(v.at);
    const zig = polyline([[left + 10, y0 - 3], [left + 14, y0 + h / 3], [left + 8, y0 + (2 * h) / 3], [left + 12, y0 + h + 3]]);
    return label(y, v.name, "") +
      `<rect x="${n(left)}" y="${n(y0)}" width="${n(end - left)}" height="${h}" fill="${ink.boats[boat]}"/>` +
      path(zig, `fill="none" stroke="${ink.page}" stroke-width="4"`) +
      marker(boat, end, y0 + h / 2, ink.boats[boat], ink.page, 7) +
      text(end + 14, y0 + h / 2 + 4.5, v.text, { size: 13, weight: 600, halo: ink.page });
  };
  out += whole(0, 0, w.first);
  w.steps.forEach((s, i) => {
    const y = top + row * (i + 1), h = row - 20, y0 = y + 10;
    const a = x(levels[i]), b = x(levels[i + 1]), lo = Math.min(a, b), hi = Math.max(a, b);
    const said = widthOf(s.said, 10) > left - 40 ? s.said.slice(0, 34) + "…" : s.said;
    out += `<g data-step="${i}">` + line(a, y - 9, a, y0 + h, ink.soft, 0.8, "2 3");
    out += label(y, s.name, said);
    out += `<rect x="${n(lo)}" y="${n(y0)}" width="${n(Math.max(1.5, hi - lo))}" height="${h}" fill="url(#${id}-${s.at < 0 ? "less" : "more"})" stroke="${ink.ink}" stroke-width="1"><title>${esc(s.name + " " + s.text)}</title></rect>`;
    if (s.error > 0) {
      const e0 = x(levels[i + 1] - s.error), e1 = x(levels[i + 1] + s.error), ym = y0 + h / 2;
      out += line(e0, ym, e1, ym, ink.ink, 1.4) + line(e0, ym - 4, e0, ym + 4, ink.ink, 1.4) + line(e1, ym - 4, e1, ym + 4, ink.ink, 1.4);
    }
    out += (s.at < 0
      ? text(lo - 8, y0 + h / 2 + 4.5, s.text, { size: 13, anchor: "end", halo: ink.page })
      : text(hi + 8, y0 + h / 2 + 4.5, s.text, { size: 13, halo: ink.page })) + "</g>";
  });
  const last = levels.length - 1;
  out += line(x(levels[last]), bottom - row - 9, x(levels[last]), bottom - row + 9, ink.soft, 0.8, "2 3");
  out += whole(w.steps.length + 1, 1, w.last);
  out += text(left, bottom + 50, "bars of whole figures are cut at the left: the scale does not begin at zero", { size: 10.5, fill: ink.soft });
  return page(c, ink, width, bottom + 56, out);
}
