/** `check`: how a colourway will look in its pattern. */
import type { Severity } from "../../base/problem.ts";
import { cautionsOf } from "../../audit/cautions.ts";
import { judgeMemory } from "../../audit/judge.ts";
import { checkProject } from "../../jobs/check.ts";
import { measureNext } from "../../jobs/measure.ts";
import { readsInLights } from "../../jobs/reads.ts";
import { COLOURWAY_OPTION, DEFICIENCY_OPTIONS, SEEING_OPTIONS, type Command } from "../command.ts";
import { EXIT } from "../io.ts";
import { colourwayIn, deficiencyOf, openProject, seeingOf } from "../projectFile.ts";
import { checkReport } from "../reports/check.ts";
import { lightsReport } from "../reports/lights.ts";

const SEVERITIES: readonly Severity[] = ["note", "doubt", "fault"];

export const checkCommand: Command = {
  name: "check",
  summary: "Tells how a colourway will look knitted: light to dark, what shows, what takes over, what mends it.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    ...COLOURWAY_OPTION,
    ...SEEING_OPTIONS,
    ...DEFICIENCY_OPTIONS,
    "fail-on": {
      value: "SEVERITY",
      help: "exit with 1 on a finding at or above note, doubt or fault; never by default",
    },
    lights: { help: "also how far each band reads by a lamp, in a room and by a window" },
    all: { help: "tell every finding in full" },
  },
  details: [
    "Words: lost, faint, clear, strong is how a row or band shows at that distance. Rows count from 1 at the bottom.",
  ],
  example: "twostrand check vest.twostrand.json --distance 3 --fail-on fault",
  run: async (given) => {
    const failOn = given.choice("fail-on", SEVERITIES);
    const seeing = { ...seeingOf(given), ...deficiencyOf(given) };
    const { project, problems } = await openProject(given.operand(0));
    const memory = judgeMemory();
    const judged = colourwayIn(project, given);
    const colourway = judged.id;
    const result = checkProject(project, { colourway, ...seeing, memory });
    const beside = {
      measure: measureNext(project, { colourway, ...seeing, memory }),
      cautions: cautionsOf({ yarns: project.yarns, colourway: judged }),
    };
    const reads = given.flag("lights")
      ? result.bands
          .filter(({ section, shows }) => section === null && shows !== null)
          .map(({ chart, id, name, rows }) => ({
            chart,
            band: id,
            name,
            rows,
            lights: readsInLights(project, { colourway, chart, rows, memory }),
          }))
      : null;
    const reached = result.findings.some(({ severity }) => isAtLeast(severity, failOn));
    return {
      json: { ...result, ...beside, ...(reads ? { readsInLights: reads } : {}) },
      text: () =>
        [
          checkReport(project, { ...result, ...beside }, given.flag("all") ? "all" : "worst"),
          ...(reads ? [lightsReport(reads)] : []),
        ].join("\n\n"),
      problems,
      code: reached ? EXIT.finding : EXIT.done,
    };
  },
};

const isAtLeast = (severity: Severity, least: Severity | undefined): boolean =>
  least !== undefined && SEVERITIES.indexOf(severity) >= SEVERITIES.indexOf(least);
