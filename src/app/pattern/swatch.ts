/** The colour of a pattern's entry as a style sheet takes it, and what it is called where nobody has named it. */
import { hexFromLab } from "../../colour/lab.ts";
import { labOfShade } from "../../colour/shade.ts";
import type { PatternColour } from "../../fabric/pattern.ts";

export const swatchOf = ({ shade }: Pick<PatternColour, "shade">): string => hexFromLab(labOfShade(shade));

export const colourName = ({ id, name }: Pick<PatternColour, "id" | "name">): string =>
  name === undefined || name === "" ? `colour ${id}` : name;
