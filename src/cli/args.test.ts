/** What wrong arguments are told, sentence by sentence. */
import { describe, expect, it } from "vitest";
import { readArguments, type Given } from "./args.ts";
import type { Command } from "./command.ts";
import { EXIT, Refusal } from "./io.ts";
import { nearestWord } from "./nearest.ts";

const command: Command = {
  name: "draw",
  summary: "Draws.",
  operands: [
    { name: "PROJECT", required: true },
    { name: "CHART", required: false },
  ],
  options: {
    out: { value: "FILE", help: "", required: true },
    distance: { value: "M", help: "" },
    paper: { value: "SIZE", help: "" },
    grey: { help: "" },
    box: { value: "BOX", help: "", many: true },
  },
  example: "",
  run: () => ({ json: null, text: () => "" }),
};
const least = ["p.json", "--out", "x.png"];

function refusalOf(argv: string[], use: (given: Given) => unknown = () => undefined): string {
  try {
    use(readArguments(command, argv));
  } catch (error) {
    if (error instanceof Refusal && error.code === EXIT.usage) return error.message.split("\n")[0]!;
    throw error;
  }
  return "nothing";
}

describe("arguments", () => {
  it("are found in any order, with = or without", () => {
    const given = readArguments(command, ["--grey", "--distance=1.5", "p.json", "--out", "-", "c1"]);
    expect([given.operand(0), given.optionalOperand(1), given.text("out")]).toEqual(["p.json", "c1", "-"]);
    expect(given.number("distance", {})).toBe(1.5);
    expect([given.flag("grey"), given.flag("json")]).toEqual([true, false]);
    expect(given.choice("paper", ["A4"])).toBeUndefined();
  });

  it("that may be given again come in their order", () => {
    const given = readArguments(command, [...least, "--box", "1,2", "--box=3,4"]);
    expect([given.texts("box"), given.texts("paper")]).toEqual([["1,2", "3,4"], []]);
  });

  it("may follow -- where a file's name begins with a dash", () => {
    expect(readArguments(command, ["--out", "x", "--", "--grey"]).operand(0)).toBe("--grey");
  });

  it.each<[string[], string]>([
    [[], "draw: expected PROJECT, found nothing."],
    [["p.json"], "draw: expected --out FILE, found nothing."],
    [[...least, "c1", "more"], 'draw: expected no more than that, found "more".'],
    [[...least, "--distnace", "3"], "draw has no option --distnace. Did you mean --distance?"],
    [[...least, "--zzz"], "draw has no option --zzz."],
    [[...least, "-g"], "draw has no option -g."],
    [[...least, "--__proto__"], "draw has no option --__proto__."],
    [[...least, "--out", "y"], "--out was given twice."],
    [["p.json", "--out"], "--out: expected FILE, found nothing."],
    [["p.json", "--out", "--grey"], "--out: expected FILE, found --grey."],
    [[...least, "--grey=yes"], '--grey takes no value, found "yes".'],
  ])("%j", (argv, sentence) => expect(refusalOf(argv)).toBe(sentence));

  it.each<[string, string]>([
    ["x", '--distance: expected a number above 0 up to 9, found "x".'],
    ["0", '--distance: expected a number above 0 up to 9, found "0".'],
    ["-1", '--distance: expected a number above 0 up to 9, found "-1".'],
    ["1e3", '--distance: expected a number above 0 up to 9, found "1e3".'],
    ["1,5", '--distance: expected a number above 0 up to 9, found "1,5".'],
    ["10", '--distance: expected a number above 0 up to 9, found "10".'],
  ])("a distance of %s", (value, sentence) =>
    expect(refusalOf([...least, "--distance", value], (given) => given.number("distance", { above: 0, most: 9 }))).toBe(
      sentence,
    ),
  );

  it("a choice forgives capitals and guesses what is meant", () => {
    const choose = (value: string) =>
      readArguments(command, [...least, "--paper", value]).choice("paper", ["A4", "Letter"]);
    expect(choose("letter")).toBe("Letter");
    expect(refusalOf([...least, "--paper", "leter"], (given) => given.choice("paper", ["A4", "Letter"]))).toBe(
      '--paper: expected A4, Letter, found "leter". Did you mean Letter?',
    );
  });
});

it.each([
  ["chekc", "check"],
  ["recolor", "recolour"],
  ["amount", "amounts"],
  ["sta", "stash"],
  ["garment", null],
  ["x", null],
])("%s is near %s", (typed, word) => {
  expect(nearestWord(typed, ["check", "recolour", "amounts", "stash", "read"])).toBe(word);
});
