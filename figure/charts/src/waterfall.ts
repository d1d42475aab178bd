import type { Chart, Waterfall } from "./chart";
import { levelScale, padded, under, underHeight } from "./axis";
import { type Ink, colour, esc, hatch, isNarrow, line, marker, n, page, path, polyline, slot, text, widthFor, widthOf, wrap } from "./paper";

// waterfall draws rows from the first boat to the second. The scale starts off zero,
// which the broken ends of both whole bars show.
export function waterfall(c: Chart, w: Waterfall, ink: Ink): string {
  const width = widthFor(ink), narrow = isNarrow(ink), top = 4, above = narrow ? 17 : 0, row = 40 + above;
  const left = narrow ? 14 : Math.min(230, width * 0.3), right = width - (narrow ? 64 : 120);
  const levels = [w.first.at];
  for (const s of w.steps) levels.push(levels[levels.length - 1] + s.at);
  const [low, high] = padded(Math.min(...levels, w.last.at), Math.max(...levels, w.last.at), narrow ? 0.3 : 0.22);
  const x = levelScale([low, high], left, right);
  const bottom = top + row * (w.steps.length + 2);
  const id = `fw-${c.kind}-${ink.name}`;
  let out = `<defs>${hatch(id + "-more", ink.soft, ink.page, "up")}${hatch(id + "-less", ink.ink, ink.faint, "down")}</defs>`;
  out += under(x, top, bottom, w.axis, ink);
  const label = (y: number, name: string, said: string) => {
    if (narrow) {
      const room = width - 42 - widthOf(name, 13);
      return text(left, y + 15, name, { size: 13, weight: said ? 400 : 600, halo: ink.page }) +
        (said && room > 80 ? text(width - 14, y + 15, fit(said, 10, room), { size: 10, fill: ink.soft, anchor: "end", halo: ink.page }) : "");
    }
    const lines = wrap(name, 13, left - 44).slice(0, 2);
    return lines.map((l, i) => text(left - 16, y + 20 + i * 14 - (said || lines.length > 1 ? 7 : 0), l, { size: 13, anchor: "end", weight: said ? 400 : 600 })).join("") +
      (said ? text(left - 16, y + 29 + (lines.length - 1) * 8, fit(said, 10, left - 30), { size: 10, fill: ink.soft, anchor: "end" }) : "");
  };
  const whole = (i: number, boat: number, v: { name: string; at: number; text: string }) => {
    const y = top + row * i, h = 22, y0 = y + above + 9, end = x(v.at);
    const zig = polyline([[left + 10, y0 - 3], [left + 14, y0 + h / 3], [left + 8, y0 + (2 * h) / 3], [left + 12, y0 + h + 3]]);
    return label(y, v.name, "") +
      `<rect x="${n(left)}" y="${n(y0)}" width="${n(end - left)}" height="${h}" fill="${colour(ink, boat)}"/>` +
      path(zig, `fill="none" stroke="${ink.page}" stroke-width="4"`) +
      marker(slot(ink, boat), end, y0 + h / 2, colour(ink, boat), ink.page, 7) +
      text(end + 14, y0 + h / 2 + 4.5, v.text, { size: 13, weight: 600, halo: ink.page });
  };
  out += whole(0, 0, w.first);
  w.steps.forEach((s, i) => {
    const y = top + row * (i + 1), h = 20, y0 = y + above + 10;
    const a = x(levels[i]), b = x(levels[i + 1]), lo = Math.min(a, b), hi = Math.max(a, b);
    let step = line(a, y - 9, a, y0 + h, ink.soft, 0.8, "2 3");
    step += label(y, s.name, s.said);
    step += `<rect x="${n(lo)}" y="${n(y0)}" width="${n(Math.max(1.5, hi - lo))}" height="${h}" fill="url(#${id}-${s.at < 0 ? "less" : "more"})" stroke="${ink.ink}" stroke-width="1"><title>${esc(s.name + " " + s.text)}</title></rect>`;
    if (s.error > 0) {
      const e0 = x(levels[i + 1] - s.error), e1 = x(levels[i + 1] + s.error), ym = y0 + h / 2;
      step += line(e0, ym, e1, ym, ink.ink, 1.4) + line(e0, ym - 4, e0, ym + 4, ink.ink, 1.4) + line(e1, ym - 4, e1, ym + 4, ink.ink, 1.4);
    }
    step += s.at < 0
      ? text(lo - 8, y0 + h / 2 + 4.5, s.text, { size: 13, anchor: "end", halo: ink.page })
      : text(hi + 8, y0 + h / 2 + 4.5, s.text, { size: 13, halo: ink.page });
    out += `<g data-step="${i}">${step}</g>`;
  });
  const last = levels.length - 1;
  out += line(x(levels[last]), bottom - row - 9, x(levels[last]), bottom - row + above + 9, ink.soft, 0.8, "2 3");
  out += whole(w.steps.length + 1, 1, w.last);
  let y = bottom + underHeight(w.axis, ink) + 8;
  for (const l of wrap("bars of whole figures are cut at the left: the scale does not begin at zero", 10.5, width - 2 * 14)) {
    out += text(narrow ? 14 : left, y, l, { size: 10.5, fill: ink.soft });
    y += 14;
  }
  return page(c, ink, width, y - 8, out);
}

// fit cuts a text to a width.
function fit(s: string, size: number, width: number): string {
  if (widthOf(s, size) <= width) return s;
  let end = s.length;
  while (end > 3 && widthOf(s.slice(0, end) + "…", size) > width) end--;
  return s.slice(0, end) + "…";
}
