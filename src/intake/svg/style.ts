/** Which paint an SVG element has: its attributes, the drawing's own style sheets where they are simple, its style, its parents'. */
import { textWithin, type SvgElement } from "./tree.ts";

/** Property → value, as written. */
export type Style = Readonly<Record<string, string>>;

interface Rule {
  readonly name: string | null;
  readonly id: string | null;
  readonly classes: readonly string[];
  readonly weight: number;
  readonly style: Style;
}

/** Rules with selectors of a name, a class or an identity and lists of such; all others are passed over. */
export function rulesOf(root: SvgElement): Rule[] {
  const rules: Rule[] = [];
  const visit = (element: SvgElement): void => {
    if (element.name === "style") rules.push(...rulesOfSheet(textWithin(element)));
    for (const child of element.children) if (typeof child !== "string") visit(child);
  };
  visit(root);
  return rules.slice(0, MOST_RULES).sort((one, other) => one.weight - other.weight);
}

function rulesOfSheet(sheet: string): Rule[] {
  const plain = sheet.replace(/\/\*[^]*?\*\//g, " ");
  const rules: Rule[] = [];
  // Up to a brace, and up to the next: what is nested (as for other media) is passed over with its selectors.
  for (const found of plain.matchAll(/([^{}]{1,2000})\{([^{}]{0,5000})\}/g)) {
    const style = declarations(found[2]!);
    for (const selector of found[1]!.split(",")) {
      const parts = /^\s*(\*|[a-zA-Z]+)?((?:[.#][\w-]+)*)\s*$/.exec(selector);
      if (!parts || (!parts[1] && !parts[2])) continue;
      const marks = parts[2]!.match(/[.#][\w-]+/g) ?? [];
      const id = marks.find((mark) => mark.startsWith("#"))?.slice(1) ?? null;
      const classes = marks.filter((mark) => mark.startsWith(".")).map((mark) => mark.slice(1));
      const name = parts[1] === undefined || parts[1] === "*" ? null : parts[1];
      rules.push({ name, id, classes, weight: (id ? 100 : 0) + classes.length * 10 + (name ? 1 : 0), style });
    }
  }
  return rules;
}

function declarations(text: string): Style {
  const style: Record<string, string> = {};
  for (const part of text.split(";")) {
    const colon = part.indexOf(":");
    if (colon > 0)
      style[part.slice(0, colon).trim().toLowerCase()] = part
        .slice(colon + 1)
        .replace(/!important/i, "")
        .trim();
  }
  return style;
}

/** The element's own style and what it has of its parents. Source: SVG 2, 6.6 (presentation attributes) and CSS 2.2, 6.4. */
export function styleOf(element: SvgElement, parent: Style, rules: readonly Rule[]): Style {
  const style: Record<string, string> = {};
  for (const property of INHERITED) if (parent[property] !== undefined) style[property] = parent[property];
  const set = (property: string, value: string | undefined): void => {
    if (value === undefined || value === "") return;
    if (value !== "inherit") style[property] = value;
    else if (parent[property] !== undefined) style[property] = parent[property];
  };
  for (const property of PROPERTIES) set(property, element.attributes[property]);
  const classes = (element.attributes.class ?? "").split(/\s+/);
  for (const { name, id, classes: wanted, style: own } of rules) {
    if ((name !== null && name !== element.name) || (id !== null && id !== element.attributes.id)) continue;
    if (wanted.every((one) => classes.includes(one))) for (const property of PROPERTIES) set(property, own[property]);
  }
  const own = element.attributes.style;
  if (own) {
    const declared = declarations(own);
    for (const property of PROPERTIES) set(property, declared[property]);
  }
  return style;
}

const INHERITED = [
  "fill",
  "stroke",
  "stroke-width",
  "fill-opacity",
  "stroke-opacity",
  "fill-rule",
  "stroke-dasharray",
  "color",
  "font-size",
  "font-family",
  "text-anchor",
  "dominant-baseline",
  "visibility",
];
const PROPERTIES = [...INHERITED, "opacity", "display", "transform", "clip-path", "stop-color"];
const MOST_RULES = 2000;
