/** Why an edit cannot be done, where the record that it would make could not say it as plainly. */
import type { Problem } from "../base/problem.ts";
import { bandRefusal } from "./bandEdit.ts";
import type { PlainEdit } from "./plainEdit.ts";
import type { Project } from "./project.ts";

/** null for an edit that may be tried. */
export function refusal(project: Project, edit: PlainEdit): Problem | null {
  const missing = (where: string, ids: readonly { id: string }[], id: string, word: string): Problem | null =>
    ids.some((item) => item.id === id) ? null : fault(where, `the id of one of the ${word}`, JSON.stringify(id));
  const { pattern, yarns, colourways } = project;
  if ("colourway" in edit) {
    const none = missing("the colourway", colourways, edit.colourway, "colourways");
    if (none) return none;
  }
  switch (edit.kind) {
    case "setPatternColour":
      return missing("the colour", pattern.colours, edit.id, "chart's colours");
    case "setBandWant":
      return missing("the chart", pattern.charts, edit.chart, "charts") ?? rowsRefusal(project, edit);
    case "declareBand":
    case "releaseBand":
    case "shiftBand":
    case "setStartColumn":
      return bandRefusal(project, edit);
    case "changeYarn":
      return missing("the yarn", yarns, edit.yarn, "yarns");
    case "removeYarn":
      return missing("the yarn", yarns, edit.yarn, "yarns") ?? usedRefusal(project, edit.yarn);
    case "addColourway":
      return edit.from === null ? null : missing("the colourway", colourways, edit.from, "colourways");
    case "removeColourway":
      return colourwayRefusal(project, edit.colourway);
    case "assignYarn":
      return missing("the colour", pattern.colours, edit.colour, "chart's colours");
    case "setSwatchGauge":
      return missing("the swatch", project.swatches ?? [], edit.swatch, "swatches");
    case "setRound":
    case "setSectionGauge":
      return missing("the section", pattern.sections ?? [], edit.section, "sections");
    default:
      return null;
  }
}

const fault = (where: string, expected: string, got: string): Problem => ({ where, expected, got, severity: "fault" });

function rowsRefusal({ pattern }: Project, edit: Extract<PlainEdit, { kind: "setBandWant" }>): Problem | null {
  const height = pattern.charts.find(({ id }) => id === edit.chart)!.rows.length;
  const [from, to] = edit.rows;
  return from >= 1 && from <= to && to <= height
    ? null
    : fault("the band", `rows between 1 and ${height}`, `[${from}, ${to}]`);
}

function usedRefusal(project: Project, yarn: string): Problem | null {
  const name = project.yarns.find(({ id }) => id === yarn)!.name;
  const user = project.colourways.find(
    ({ yarns, changes, overStitched }) =>
      Object.values(yarns).includes(yarn) ||
      [...(changes ?? []), ...(overStitched ?? [])].some((use) => use.yarn === yarn),
  );
  return user
    ? fault(
        `the yarn ${JSON.stringify(name)}`,
        "a yarn that no colourway uses",
        `it in ${JSON.stringify(user.name ?? user.id)}`,
      )
    : null;
}

function colourwayRefusal({ colourways, swatches }: Project, colourway: string): Problem | null {
  if (colourways.length === 1) return fault("the colourway", "one that is not the only one", "the only one");
  const swatch = swatches?.find((knitted) => knitted.colourway === colourway);
  return swatch ? fault("the colourway", "one without a swatch", `swatch ${JSON.stringify(swatch.id)}`) : null;
}
