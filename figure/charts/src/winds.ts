import { line as curveOf } from "d3-shape";
import type { Chart, WindLine, Winds } from "./chart";
import { type Scale, beside, levelScale, padded, under, underHeight } from "./axis";
import { type Ink, apart, colour, dashes, isNarrow, line, marker, n, page, path, slot, text, widthFor, widthOf } from "./paper";

// winds draws progress over the wind's speed with bands, a curve for each boat, and
// under it over the same winds the difference about its zero line.
export function winds(c: Chart, w: Winds, ink: Ink): string {
  const width = widthFor(ink), narrow = isNarrow(ink), top = 12;
  const left = narrow ? 48 : 80, names = Math.max(...w.boats.map((l) => widthOf(l.name, 12)));
  const right = width - Math.min(names, narrow ? 90 : 160) - 18; // room for the names at the lines' ends
  const all = w.boats[0].points.map((p) => p.wind.at);
  const x = levelScale([Math.min(...all), Math.max(...all)], left, right);
  const tall = narrow ? 230 : 320;
  const y = scaleOf(w.boats, top + tall, top, ink);
  let out = beside(y, left, right, w.axis, ink) + lines(w.boats, ink, x, y, (i) => ({ stroke: colour(ink, i), slot: slot(ink, i) }));
  let bottom = top + tall;
  if (w.gains.length) {
    const from = bottom + 22, to = from + (narrow ? 120 : 150);
    const g = scaleOf(w.gains, to, from, ink, 0);
    out += under(x, top, to, w.across, ink, 10) + beside(g, left, right, w.gain_axis, ink, 4) + lines(w.gains.map((l) => ({ ...l, name: "" })), ink, x, g, () => ({ stroke: ink.ink, slot: 0 })) +
      text(left + 4, from - 5, w.gains[0].name, { size: 11.5, weight: 600, halo: ink.page });
    bottom = to;
  } else out += under(x, top, bottom, w.across, ink, 10);
  return page(c, ink, width, bottom + underHeight(w.across, ink), out);
}

function scaleOf(all: WindLine[], from: number, to: number, ink: Ink, with0?: number): Scale {
  const at = all.flatMap((l) => l.points.flatMap((p) => [...(p.value ? [p.value.at] : []), ...p.bands.filter((b) => b.level === ink.how.level).flatMap((b) => [b.from.at, b.to.at])]));
  if (with0 !== undefined) at.push(with0);
  return levelScale(padded(Math.min(...at), Math.max(...at), 0.08), from, to);
}

function lines(all: WindLine[], ink: Ink, x: Scale, y: Scale, how: (i: number) => { stroke: string; slot: number }): string {
  let bands = "", curves = "";
  const ends: { at: number; y: number; s: string }[] = [];
  const draw = curveOf<[number, number]>();
  all.forEach((l, i) => {
    const { stroke, slot: k } = how(i);
    for (const run of runs(l)) {
      const edge = run.flatMap((p) => { const b = p.bands.find((q) => q.level === ink.how.level); return b ? [{ x: x(p.wind.at), low: y(b.from.at), high: y(b.to.at) }] : []; });
      if (edge.length > 1) {
        bands += path(edge.map((e, j) => `${j ? "L" : "M"}${n(e.x)} ${n(e.high)}`).join("") + edge.slice().reverse().map((e) => `L${n(e.x)} ${n(e.low)}`).join("") + "Z", `fill="${stroke}" fill-opacity="0.16" stroke="${stroke}" stroke-width="0.6"`);
      }
      curves += path(draw(run.map((p) => [x(p.wind.at), y(p.value!.at)] as [number, number])) ?? "", `fill="none" stroke="${stroke}" stroke-width="2" stroke-dasharray="${dashes[k]}"`);
      for (const p of run) curves += marker(k, x(p.wind.at), y(p.value!.at), stroke, ink.page, 4);
    }
    const last = l.points.filter((p) => p.value).pop();
    if (last) ends.push({ at: x(last.wind.at), y: y(last.value!.at), s: l.name });
  });
  const [low, high] = y.range();
  const placed = apart(ends.map((e) => e.y + 4), 15, Math.min(low, high) + 4, Math.max(low, high));
  ends.forEach((e, i) => {
    if (e.s) curves += line(e.at + 5, e.y, e.at + 9, placed[i] - 4, ink.faint, 0.8) + text(e.at + 11, placed[i], e.s, { size: 12, weight: 700, halo: ink.page });
  });
  return bands + curves;
}

// runs are the stretches of winds in which a boat sails.
function runs(l: WindLine): WindLine["points"][] {
  const out: WindLine["points"][] = [];
  let open = false;
  for (const p of l.points) {
    if (!p.value) { open = false; continue; }
    if (!open) out.push([]);
    open = true;
    out[out.length - 1].push(p);
  }
  return out;
}
