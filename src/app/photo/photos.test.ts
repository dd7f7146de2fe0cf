import { describe, expect, test } from "vitest";
import type { PhotoSurvey } from "../../jobs/shade.ts";
import type { Surveyed } from "../worker/photoApi.ts";
import { drawnOutline } from "./outline.ts";
import { freshYarn, nextTask, withoutReference, type PhotoInHand, type ReferenceChoice } from "./photos.ts";
import { boxPut, cornerPut, movedBy, placesOn, REFERENCE } from "./places.ts";

const SIZE = { width: 400, height: 300 };
const BY: Surveyed = { survey: {} as PhotoSurvey, step: 1, told: { kind: "none" } };
const FIND: ReferenceChoice = { kind: "find" };
const outline = drawnOutline("box", { x: 10, y: 10, width: 60, height: 60 }, SIZE);
const photo = (part: Partial<PhotoInHand>): PhotoInHand => ({
  id: "p1",
  file: new File([], "balls.jpg"),
  state: "ready",
  preview: "",
  ...SIZE,
  reference: FIND,
  surveyed: BY,
  surveyedBy: FIND,
  told: [],
  yarns: [],
  ...part,
});
const measured = (key: string, of = outline) => ({
  ...freshYarn(key, outline),
  told: { key, outcome: { value: null, problems: [] }, picture: "", of, by: BY },
});

describe("what is done next", () => {
  test("nothing where all is measured; what waits where nothing else is left; a correction before what waits", () => {
    const waiting = photo({ id: "p2", state: "waiting" });
    expect(nextTask([photo({ yarns: [measured("a")] })])).toBeNull();
    expect(nextTask([photo({ yarns: [measured("a")] }), waiting])).toMatchObject({ kind: "look", photo: { id: "p2" } });
    const corrected = measured("b", { ...outline });
    const task = nextTask([waiting, photo({ yarns: [measured("a"), corrected] })]);
    expect(task).toMatchObject({ kind: "measure", yarns: [{ key: "b" }] });
  });

  test("another reference is looked at once it is framed, and then all is measured by it", () => {
    const grey: ReferenceChoice = { kind: "grey", area: null, percent: 18 };
    const changed = photo({ reference: grey, yarns: [measured("a")] });
    expect(nextTask([changed])).toBeNull();
    const framed = { ...changed, ...boxPut(changed, REFERENCE, { x: 1, y: 2, width: 30, height: 40 }) };
    expect(nextTask([framed])).toMatchObject({
      kind: "survey",
      reference: { kind: "grey", area: { x: 1, y: 2, width: 30, height: 40 }, reflectance: 0.18 },
    });
    const surveyed = { ...framed, surveyed: { ...BY }, surveyedBy: framed.reference };
    expect(nextTask([surveyed])).toMatchObject({ kind: "measure", yarns: [{ key: "a" }] });
    // A reference that could not be used is not asked about again and again.
    expect(nextTask([{ ...surveyed, surveyed: null }])).toBeNull();
  });

  test("a photograph that was refused asks for nothing", () => {
    expect(nextTask([photo({ state: "refused", surveyed: null, surveyedBy: null })])).toBeNull();
  });
});

describe("by hand", () => {
  test("keys go through corners, the reference's frame and the yarns; a corner that is moved makes the chart hers", () => {
    const corners = [
      [10, 10],
      [90, 10],
      [90, 70],
      [10, 70],
    ] as const;
    const found = photo({ surveyed: { ...BY, told: { kind: "patches", corners } }, yarns: [measured("a")] });
    expect(placesOn(found)).toEqual(["corner 0", "corner 1", "corner 2", "corner 3", "a"]);
    expect(movedBy(found, "corner 2", 5, -1000)).toEqual({
      reference: {
        kind: "patches",
        corners: [
          [10, 10],
          [90, 10],
          [95, 0],
          [10, 70],
        ],
      },
    });
    expect(cornerPut(photo({}), 0, [1, 1])).toEqual({});
  });

  test("what was proposed upon the grey card is no yarn; what she drew there stays", () => {
    const found = { ...freshYarn("a", { ...outline, form: "found" as const }) };
    const drawn = freshYarn("b", outline);
    const grey: ReferenceChoice = { kind: "grey", area: { x: 0, y: 0, width: 100, height: 100 }, percent: 18 };
    expect(withoutReference([found, drawn], grey)).toEqual([drawn]);
    expect(withoutReference([found, drawn], FIND)).toEqual([found, drawn]);
  });
});
