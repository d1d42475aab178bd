import { describe, expect, test } from "vitest";
import { hintAt, offersAt } from "./complete";
import { outline, pathOf, placeAt } from "./place";
import type { Schema } from "./schema";

const length: Schema = { anyOf: [{ type: "string", examples: ["12.0 m"] }, { type: "object", properties: { is: { type: "string" }, times: { type: "string", description: "shared unknown" } } }], title: "length", units: ["m", "mm", "ft"] };
const none = (s: Schema, description: string): Schema => ({ description, anyOf: [s, { $ref: "#/$defs/none" }] });
const point: Schema = { type: "object", properties: { x: none(length, "forward"), y: none(length, "to port"), z: none(length, "up") } };
const schema: Schema = {
  $defs: {
    none: { const: "none", description: "removes" },
    weight: { type: "object", properties: { mass: none({ type: "string" }, "its mass"), at: none(point, "where it is") } },
    piece: { type: "object", properties: { as: { type: "string" }, from: { type: "string" }, path: none({ type: "array", items: point }, "its line"), axis: { anyOf: [{ enum: ["x", "y", "z"] }] } } },
  },
  anyOf: [{
    type: "object",
    properties: {
      length: none(length, "reference length"),
      weights: none({ type: "object", additionalProperties: none({ $ref: "#/$defs/weight" }, "") }, "every item of mass"),
      foils: { type: "object", additionalProperties: { type: "object", properties: { pieces: { type: "object", additionalProperties: { $ref: "#/$defs/piece" } } } } },
      limits: { type: "object", additionalProperties: { type: "string" }, propertyNames: { pattern: "^(.+ )?(heel|ride height)$" } },
    },
  }],
};

// at splits a text at its bar, where the cursor stands.
function at(text: string): [string, number] {
  const i = text.indexOf("|");
  return [text.slice(0, i) + text.slice(i + 1), i];
}

describe("where one is", () => {
  test.each([
    ["len|", "", "key", "len"],
    ["length: 12|", "length", "value", "12"],
    ["weights:\n  rig: {mass: 5 kg, a|", "weights.rig", "key", "a"],
    ["weights:\n  rig: {mass: 5 kg, at: {x: 1 m, y: -|}}\n", "weights.rig.at.y", "value", "-"],
    ["weights:\n  rig:\n    mass: 5 kg\n    |\n  crew:\n", "weights.rig", "key", ""],
    ["weights:\n  rig:\n    mass: 5 kg\n  |", "weights", "key", ""],
    ["foils:\n  f:\n    pieces:\n      b:\n        path:\n          - {z: 0 m}\n          - {z: |", "foils.f.pieces.b.path[2].z", "value", ""],
    ["foils:\n  f:\n    pieces:\n      b:\n        path: [{z: 0 m}, {|", "foils.f.pieces.b.path[2]", "key", ""],
    ["a:\n  - x: 1\n    y: 2\n  - x: 3\n    y|", "a[2]", "key", "y"],
    ["a: {\n  b: 1, # no, {\n  c: |\n}", "a.c", "value", ""],
    ["'a: b': \"x: {\"\nc: |", "c", "value", ""],
  ])("%j", (marked, path, kind, typed) => {
    const place = placeAt(...at(marked));
    expect(place && pathOf(place.keys)).toBe(path);
    expect(place?.at).toBe(kind);
    expect(place?.typed).toBe(typed);
  });
  test("not in a comment", () => {
    expect(placeAt(...at("length: 5 m # hull|"))).toBeNull();
    expect(placeAt(...at("a: {b: 1, # x|\n}"))).toBeNull();
  });
  test("outline", () => {
    expect(outline("a: 1\nb:\n  c: {d: 1, e: [x, {f: 2}]}\n  g:\n    - h: 1\n").map((k) => pathOf(k.keys))).toEqual(["a", "b", "b.c", "b.c.d", "b.c.e", "b.c.e[2].f", "b.g", "b.g[1].h"]);
  });
});

describe("what may be written", () => {
  const labels = (marked: string, unknowns: string[] = []) => offersAt(schema, ...at(marked), unknowns)?.offers.map((o) => o.label);
  test("keys that are not there yet", () => {
    expect(labels("length: 5 m\n|")).toEqual(["weights", "foils", "limits"]);
    expect(labels("weights:\n  rig: {mass: 5 kg, |}")).toEqual(["at"]);
    expect(labels("limits:\n  r|")).toEqual(["heel", "ride height"]);
  });
  test("units behind a number", () => {
    expect(labels("length: 12|")).toEqual(["m", "mm", "ft"]);
    const after = offersAt(schema, ...at("length: 12 m|"), []);
    expect(after?.from).toBe("length: 12 ".length);
    expect(after?.offers[1]?.apply).toBe("mm");
    expect(offersAt(schema, ...at("length: 12|"), [])?.offers[0]?.apply).toBe(" m");
  });
  test("names of parts, choices and unknowns", () => {
    const foil = "foils:\n  f:\n    pieces:\n      arm: {}\n      wing: {as: |}\n";
    expect(labels(foil)).toEqual(["arm"]);
    expect(labels(foil.replace("as: |", "from: |"))).toEqual(["root", "arm tip"]);
    expect(labels(foil.replace("as: |", "axis: |"))).toEqual(["x", "y", "z"]);
    expect(labels("length: {is: 5 m, times: |}", ["photo scale"])).toEqual(["photo scale"]);
  });
  test("help", () => {
    expect(hintAt(schema, ...at("weights:\n  rig: {ma|ss: 5 kg}"))?.help).toBe("its mass");
    expect(hintAt(schema, ...at("length: 1|2 m"))).toMatchObject({ help: "reference length", kind: "length", example: "12.0 m", from: 0 });
    expect(hintAt(schema, ...at("foils:\n  f:\n    pieces:\n      b: {path: [{x: 1 m}, {z: 2| m}]}"))?.help).toBe("up");
  });
});
