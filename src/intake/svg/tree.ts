/** An SVG file's elements as plain data; what would make a reader run, fetch or swell is refused at the door. */
import { SaxesParser } from "saxes";
import type { Outcome, Problem } from "../../base/problem.ts";

export interface SvgElement {
  /** Without its prefix. */
  readonly name: string;
  /** By name without prefix. */
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: (SvgElement | string)[];
}

export function treeOfSvg(text: string): Outcome<SvgElement> {
  if (text.length > MOST_LETTERS)
    return refused(`at most ${MOST_LETTERS / 1e6} million characters`, `${Math.round(text.length / 1e6)} million`);
  const parser = new SaxesParser({ xmlns: false });
  const open: SvgElement[] = [];
  let root: SvgElement | null = null;
  let count = 0;
  let problem: Problem | null = null;
  const refuse = (expected: string, got: string): void => {
    problem ??= { ...fault(expected, got), line: parser.line };
  };
  parser.on("doctype", (type) => {
    if (/<!ENTITY/i.test(type))
      refuse(
        "a drawing without words of its own making (entities)",
        "some that it declares, which could swell without end or ask for other files",
      );
  });
  parser.on("opentag", ({ name, attributes }) => {
    if (problem) return;
    const element: SvgElement = {
      name: local(name),
      attributes: named(attributes as Record<string, string>),
      children: [],
    };
    if (++count > MOST_ELEMENTS) refuse(`at most ${MOST_ELEMENTS / 1000} thousand shapes and groups`, "more");
    if (open.length >= DEEPEST) refuse(`groups within groups at most ${DEEPEST} deep`, "deeper ones");
    if (root === null) root = element;
    open.at(-1)?.children.push(element);
    open.push(element);
  });
  parser.on("text", (words) => open.at(-1)?.children.push(words));
  parser.on("cdata", (words) => open.at(-1)?.children.push(words));
  parser.on("closetag", () => void open.pop());
  parser.on("error", (error) =>
    refuse("a whole SVG file", `damage (${error.message.replace(/^\d+:\d+: /, "").replace(/[.\s]+$/, "")})`),
  );
  // In pieces, so that a bad beginning spares the rest.
  for (let at = 0; at < text.length && !problem; at += PIECE) parser.write(text.slice(at, at + PIECE));
  if (!problem) parser.close();
  if (problem) return { value: null, problems: [problem] };
  const found = root as SvgElement | null;
  if (found?.name !== "svg")
    return refused("an SVG drawing", found ? `a file that begins with <${found.name.slice(0, 40)}>` : "no element");
  return { value: found, problems: [] };
}

/** All text within, in order. */
export const textWithin = ({ children }: SvgElement): string =>
  children.map((child) => (typeof child === "string" ? child : textWithin(child))).join("");

const local = (name: string): string => name.slice(name.indexOf(":") + 1);

function named(attributes: Readonly<Record<string, string>>): Record<string, string> {
  const own: Record<string, string> = Object.create(null) as Record<string, string>;
  for (const [name, value] of Object.entries(attributes)) own[local(name)] = value;
  return own;
}

const refused = (expected: string, got: string): Outcome<SvgElement> => ({
  value: null,
  problems: [fault(expected, got)],
});
export const fault = (expected: string, got: string): Problem => ({
  where: "the drawing",
  expected,
  got,
  severity: "fault",
});

/** Ours: a chart of 400 × 400 cells, each a shape with some words of its own, keeps well within all of them. */
const MOST_LETTERS = 60_000_000;
const MOST_ELEMENTS = 800_000;
const DEEPEST = 200;
const PIECE = 1 << 16;
