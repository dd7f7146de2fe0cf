/** Pins the public list: a name here is a promise to other programs, so adding or losing one is a decision of its own. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as library from "../src/index.ts";

const LIST = [
  // What others measure: the seeing model, dominance, the exact search, colour difference.
  "assignYarns",
  "deltaE2000",
  "deltaE2000Batch",
  "readsTo",
  "visibility",
  "visualWeight",
  // Words and numbers of one colour.
  "hexFromLab",
  "labFromHex",
  "perceivedLightness",
  "plainName",
  "valueClass",
  // The project file.
  "applyEdit",
  "problemSentence",
  "projectSchema",
  "readProject",
  "tryEdit",
  "writeProject",
  // What comes in from outside.
  "rasterFromBytes",
  "readChartPicture",
  "readChartText",
  "readStashTable",
  // The jobs.
  "amountsOfProject",
  "applyWay",
  "checkProject",
  "compareProject",
  "fabricOfProject",
  "judgeMemory",
  "newProject",
  "recolourProject",
  "sheetOfProject",
];

describe("the public list", () => {
  it("is these names and no others", () => {
    expect(Object.keys(library).sort()).toEqual([...LIST].sort());
  });

  it("is a list of functions, of sixty names at most", () => {
    expect(LIST.length).toBeLessThanOrEqual(60);
    expect(Object.values(library).filter((entry) => typeof entry !== "function")).toEqual([]);
  });

  it("is nothing of its own", () => {
    const lines = readFileSync("src/index.ts", "utf8").replace(/\/\*\*[^]*?\*\//, "");
    expect(lines.replace(/export (type )?\{[^}]*\} from "\.\/[^"]+";/g, "").trim()).toBe("");
  });
});
