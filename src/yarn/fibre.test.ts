import { describe, expect, it } from "vitest";
import { felts, hasHair } from "./fibre.ts";

// What the words mean: from memory of labels, no published list.
describe("hair", () => {
  it.each([
    "wool",
    "100% Schurwolle",
    "Lambswool",
    "70 % laine, 30 % soie",
    "lana merino",
    "ren ull",
    "uld",
    "wol",
    "kid mohair",
    "alpakka",
    "cashmere",
    "Kaschmir",
    "yak",
  ])("%s", (fibre) => expect(hasHair({ fibre })).toBe("yes"));
  it.each(["cotton", "Baumwolle", "coton", "bomull", "bomuld", "lin", "silk", "acrylic", "polyamid", "algodón"])(
    "no: %s",
    (fibre) => expect(hasHair({ fibre })).toBe("no"),
  );
  it("what nobody has said, or said in words that are not known, is unknown", () => {
    expect(hasHair({})).toBe("unknown");
    expect(hasHair({ fibre: "" })).toBe("unknown");
    expect(hasHair({ fibre: "lovely soft stuff" })).toBe("unknown");
  });
});

describe("felting", () => {
  it("what she states counts before the words", () => {
    expect(felts({ superwash: true, fibre: "wool" })).toBe("no");
    expect(felts({ superwash: false, fibre: "superwash wool" })).toBe("yes");
  });
  it.each([
    ["superwash merino", "no"],
    ["super-wash wool", "no"],
    ["non-superwash wool", "yes"],
    ["wool, not superwash", "yes"],
    ["cotton", "no"],
    ["wool", "unknown"],
  ] as const)("%s: %s", (fibre, told) => expect(felts({ fibre })).toBe(told));
  it("nobody has said", () => expect(felts({})).toBe("unknown"));
});
