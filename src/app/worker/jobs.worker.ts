/** The jobs off the main thread, so that the page answers the hand while they run. */
import { expose, transfer } from "comlink";
import { judgeMemory } from "../../audit/judge.ts";
import { seenMemory } from "../../fabric/seen.ts";
import { amountsOfProject } from "../../jobs/amounts.ts";
import { checkColourway } from "../../jobs/checked.ts";
import { fabricOfProject } from "../../jobs/picture.ts";
import type { JobsApi } from "./api.ts";

/** What one check works out serves the next: a moved distance or a changed yarn touches little of it. */
const memory = judgeMemory();
/** A cloth that was taken apart for one distance is seen from the next at a fifth of the price. */
const seen = seenMemory();

/** Nothing is tried before a hand comes near the ladder. */
const trial = () => import("../../jobs/trial.ts");

const api: JobsApi = {
  check: async (project, { mends, ...question }) => {
    const checked = checkColourway(project, { ...question, memory });
    if (mends === "without" || checked.result.findings.length === 0) return checked.result;
    return (await import("../../jobs/check.ts")).mendedCheck(checked);
  },
  tryYarns: async (project, question) => (await trial()).tryYarns(project, { ...question, memory }),
  tryPlaces: async (project, question) => (await trial()).tryPlaces(project, { ...question, memory }),
  tryTogether: async (project, question) =>
    (await import("../../jobs/together.ts")).tryTogether(project, { ...question, memory }),
  readsInLights: async (project, question) =>
    (await import("../../jobs/reads.ts")).readsInLights(project, { ...question, memory }),
  measureNext: async (project, question) =>
    (await import("../../jobs/measure.ts")).measureNext(project, { ...question, memory }),
  builtChart: async (project, question) => (await import("../../jobs/builtChart.ts")).builtChart(project, question),
  changedStitch: async (project, question) =>
    (await import("../../jobs/changedStitch.ts")).changedStitch(project, question),
  fabric: (project, options) => {
    const picture = fabricOfProject(project, { ...options, memory: seen, spectra: memory });
    return transfer(picture, [picture.rgba.buffer]);
  },
  recolour: async (project, { seconds, ...question }, onWay) => {
    const { recolourProject } = await import("../../jobs/recolour.ts");
    const end = performance.now() + seconds * 1000;
    return recolourProject(project, { ...question, memory, stop: () => performance.now() > end, onWay });
  },
  decidingOrder: async (project, colourway) =>
    (await import("../../jobs/recolour.ts")).decidingOrder(project, { colourway, memory }),
  decideNext: async (project, { seconds, ...question }) => {
    const { decideNext } = await import("../../jobs/recolour.ts");
    const end = performance.now() + seconds * 1000;
    return decideNext(project, { ...question, memory, stop: () => performance.now() > end });
  },
  applyWay: async (project, way, options) => (await import("../../jobs/recolour.ts")).applyWay(project, way, options),
  plainSwatch: async (photo, question) => (await import("./photo.ts")).plainSwatchOn(photo, question),
  amounts: amountsOfProject,
  sheet: async (project, question) => {
    // The maker of PDFs is larger than all the rest, and most visits never ask for it.
    const [{ sheetOfProject }, regular, bold] = await Promise.all([
      import("../../jobs/sheet.ts"),
      bytesOf(new URL("../../print/fonts/NotoSans-Regular.ttf", import.meta.url)),
      bytesOf(new URL("../../print/fonts/NotoSans-Bold.ttf", import.meta.url)),
    ]);
    const sheet = await sheetOfProject(project, { ...question, fonts: { regular, bold } });
    return transfer(sheet, [sheet.bytes.buffer as ArrayBuffer]);
  },
  readTable: async (source, question) => (await import("../../jobs/stash.ts")).stashOfTable(source, question),
  writeTable: async (yarns, writing) => (await import("../../jobs/stash.ts")).stashTableText(yarns, writing),
  // Files are judged when she opens one, and not before.
  read: async (text) => (await import("../../document/read.ts")).readProject(text),
  write: async (project) => (await import("../../document/write.ts")).writeProject(project),
};

async function bytesOf(address: URL): Promise<Uint8Array> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error("the sheet's typeface could not be loaded");
  return new Uint8Array(await answer.arrayBuffer());
}

expose(api);
