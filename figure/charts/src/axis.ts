import { scaleLinear, type ScaleLinear } from "d3-scale";
import { type Ink, isNarrow, line, n, text, widthFor, widthOf, wrap } from "./paper";

export type Scale = ScaleLinear<number, number>;

// tickText writes a round number as the tables do: a hyphen for minus, thousands not set apart.
export function tickText(s: Scale, count: number): (v: number) => string {
  const f = s.tickFormat(count);
  return (v) => f(v).replace("\u2212", "-").replace(/,/g, "");
}

export function levelScale(domain: [number, number], from: number, to: number): Scale {
  return scaleLinear().domain(domain).range([from, to]);
}

// under draws a horizontal axis under a picture, with hairlines up through it. Its title
// takes as many lines as it needs, see underHeight.
export function under(s: Scale, top: number, bottom: number, title: string, ink: Ink, count = 6): string {
  const [a, b] = s.range();
  const room = Math.max(2, Math.min(count, Math.floor((b - a) / 52)));
  const format = tickText(s, room);
  let out = "";
  for (const t of s.ticks(room)) {
    const x = s(t);
    out += line(x, top, x, bottom, t === 0 ? ink.ink : ink.faint, t === 0 ? 1.2 : 0.8) + text(x, bottom + 15, format(t), { size: 11, fill: ink.soft, anchor: "middle" });
  }
  const width = widthFor(ink);
  titleLines(title, ink).forEach((l, i) => {
    const half = widthOf(l, 11.5) / 2;
    out += text(Math.min(Math.max((a + b) / 2, half + 6), width - half - 6), bottom + 33 + 15 * i, l, { size: 11.5, fill: ink.soft, anchor: "middle" });
  });
  return `<g>${out}</g>`;
}

function titleLines(title: string, ink: Ink): string[] {
  return wrap(title, 11.5, widthFor(ink) - 20);
}

// underHeight returns how much room an axis takes under a picture.
export function underHeight(title: string, ink: Ink): number {
  return 27 + 15 * titleLines(title, ink).length;
}

// beside draws a vertical axis at the left.
export function beside(s: Scale, left: number, right: number, title: string, ink: Ink, count = 6): string {
  const format = tickText(s, count);
  const away = Math.max(isNarrow(ink) ? 26 : 38, ...s.ticks(count).map((t) => widthOf(format(t), 11) + 14));
  let out = "";
  for (const t of s.ticks(count)) {
    const y = s(t);
    out += line(left, y, right, y, t === 0 ? ink.ink : ink.faint, t === 0 ? 1.2 : 0.8) + text(left - 7, y + 4, format(t), { size: 11, fill: ink.soft, anchor: "end" });
  }
  const [a, b] = s.range();
  const y = (a + b) / 2;
  return `<g>${out}<text transform="translate(${n(left - away)} ${n(y)}) rotate(-90)" text-anchor="middle" font-size="11.5" fill="${ink.soft}">${title}</text></g>`;
}

// padded widens a range by a share of it on either side.
export function padded(low: number, high: number, share: number): [number, number] {
  const span = high - low || Math.abs(high) || 1;
  return [low - span * share, high + span * share];
}
