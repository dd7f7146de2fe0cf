/** A way laid on the large fabric beside what is, as a colourway of its own. */
import { useBench } from "../shell/bench.ts";
import { brokenSentence } from "../worker/answers.ts";
import type { TriedWay } from "../worker/api.ts";
import { quickJobs } from "../worker/client.ts";

/** `from` is the colourway that was asked about. */
export function useTryWay(from: string): (way: TriedWay, button: HTMLElement) => Promise<void> {
  const { project, tryChange, tell } = useBench();
  return async (way, button) => {
    if (!project) return;
    try {
      const { project: after, colourway } = await quickJobs().applyWay(project, way, { name: way.name, from });
      tryChange({
        title: `A new colourway: ${way.name}`,
        sentence: way.because[0] ?? "",
        project: after,
        colourway,
        step: { name: `the colourway “${way.name}”`, colourway: from },
        returnTo: button,
      });
    } catch (reason) {
      tell({ title: "That way could not be shown", sentences: [brokenSentence(reason)] });
    }
  };
}
