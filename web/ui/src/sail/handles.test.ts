// A pointer's way on the sheet becomes a handle's value, from every side.

import { describe, expect, it } from "vitest";
import { type Sheet, along, eyes, fit, on } from "./eye";
import { type Handle, pulled, seen, stepped } from "./handles";

const sheet: Sheet = { scale: 50, left: 400, top: 300 };
const handle = (place: Handle["place"], step = 0.001): Handle => ({
  name: "cant", hold: "cant", unit: "rad", value: 0.2, lower: -1, upper: 1, step, state: "free", text: "", range: "", spoken: "", place,
});

describe("a handle that turns", () => {
  // About the track's own x axis, 2 m below its pivot: by the right hand its foot goes
  // to port, which is to the left from astern.
  const h = handle({ at: [0, 0, -2], rate: [0, 2, 0], axis: [1, 0, 0], pivot: [0, 0, 0] });

  it("is seen along its axis alone", () => {
    expect(seen(h, eyes.front)).toBe(true);
    expect(seen(h, eyes.side)).toBe(false);
    expect(seen(h, eyes.top)).toBe(false);
  });

  it("goes where it is drawn to", () => {
    const from = on(sheet, eyes.front, h.place!.at);
    const to = on(sheet, eyes.front, [0, 2 * Math.sin(0.3), -2 * Math.cos(0.3)]);
    expect(to[0]).toBeLessThan(from[0]);
    expect(pulled(h, 0.2, h.place!, eyes.front, sheet, from, to)).toBeCloseTo(0.5, 6);
  });

  it("ends at its limits", () => {
    const from = on(sheet, eyes.front, h.place!.at);
    expect(pulled(h, 0.2, h.place!, eyes.front, sheet, from, on(sheet, eyes.front, [0, 2, 1]))).toBe(1);
    expect(pulled(h, 0.2, h.place!, eyes.front, sheet, from, on(sheet, eyes.front, [0, -2, 1]))).toBe(-1);
  });
});

describe("a handle on a straight line", () => {
  const h = handle({ at: [0, 1, 1], rate: [0, 1, 0], axis: [0, 0, 0], pivot: [0, 1, 1] });

  it("follows the pointer along its line", () => {
    const from = on(sheet, eyes.front, [0, 1, 1]);
    expect(pulled(h, 0.2, h.place!, eyes.front, sheet, from, on(sheet, eyes.front, [0, 1.5, 3]))).toBeCloseTo(0.7, 6);
    expect(pulled(h, 0.2, h.place!, eyes.top, sheet, on(sheet, eyes.top, [0, 1, 1]), on(sheet, eyes.top, [4, 0.5, 1]))).toBeCloseTo(-0.3, 6);
  });

  it("cannot be taken from where it points to the eye", () => {
    expect(seen(h, eyes.side)).toBe(false);
    expect(seen(h, eyes.top)).toBe(true);
  });
});

it("values stand on steps", () => {
  const step = Math.PI / 1800;
  expect(stepped(handle(undefined, step), 0.66602) / step).toBeCloseTo(Math.round(0.66602 / step), 9);
});

it("every eye sees across, up and towards itself at right angles, by the right hand", () => {
  for (const e of Object.values(eyes)) {
    const [a, u] = [e.across, e.up];
    const cross = [a[1] * u[2] - a[2] * u[1], a[2] * u[0] - a[0] * u[2], a[0] * u[1] - a[1] * u[0]];
    cross.forEach((v, i) => expect(v).toBeCloseTo(e.toward[i]!, 12));
    expect(along(e, e.up)).toEqual([expect.closeTo(0), -1]);
  }
});

it("an empty scene has a sheet", () => {
  const s = fit({ hulls: [], pieces: [], forces: [], weights: [] } as never, eyes.front, 600, 400);
  expect(Number.isFinite(s.scale + s.left + s.top)).toBe(true);
});
