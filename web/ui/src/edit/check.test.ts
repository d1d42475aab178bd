import { expect, test } from "vitest";
import { faultsIn, reworded, unsavedName } from "./check";
import type { StudyCheckResult } from "../lib/told";

test("faults have places", () => {
  const file = { faults: [{ where: "a/b.yaml:41:12", path: "length", problem: "no unit", hint: "m" }, { where: "b.yaml", path: "", problem: "the file is empty" }] };
  const result = { files: [file, file] } as unknown as StudyCheckResult;
  expect(faultsIn(result)).toEqual([
    { file: "a/b.yaml", line: 41, column: 12, path: "length", problem: "no unit", hint: "m" },
    { file: "b.yaml", line: 0, column: 0, path: "", problem: "the file is empty", hint: "" },
  ]);
  expect(faultsIn(undefined)).toEqual([]);
});

test("what is saved stands beside its draft", () => {
  expect(unsavedName("a/b.yaml")).toBe("a/saved b.yaml");
  expect(unsavedName("b.yaml")).toBe("saved b.yaml");
  expect(reworded([{ path: "a", from: "1 m", to: "1 m" }, { path: "b", from: "1 m", to: "2 m" }])).toEqual([{ path: "b", from: "1 m", to: "2 m" }]);
});
