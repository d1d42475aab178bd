import { angles } from "./angles";
import { bars } from "./bars";
import type { Chart } from "./chart";
import { front } from "./front";
import { margins } from "./margins";
import { type How, inkOf } from "./paper";
import { spread } from "./spread";
import { tornado } from "./tornado";
import { waterfall } from "./waterfall";
import { winds } from "./winds";

// draw returns the SVG of a chart in a theme, light or dark.
export function draw(c: Chart, theme: string, how: How = {}): string {
  const ink = inkOf(theme, { level: c.level, width: c.width, ...how });
  if (c.front) return front(c, c.front, ink);
  if (c.waterfall) return waterfall(c, c.waterfall, ink);
  if (c.spread) return spread(c, c.spread, ink);
  if (c.angles) return angles(c, c.angles, ink);
  if (c.winds) return winds(c, c.winds, ink);
  if (c.bars) return bars(c, c.bars, ink);
  if (c.margins) return margins(c, c.margins, ink);
  if (c.tornado) return tornado(c, c.tornado, ink);
  throw new Error("the chart holds nothing to draw");
}

// drawJSON is draw of a chart as text.
export function drawJSON(chart: string, theme: string): string {
  return draw(JSON.parse(chart) as Chart, theme);
}
