/** One way: its small fabric, what is plain about it, why, how sure, and a trial of it on the large fabric. */
import type { ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { capital, percentWords } from "../shell/words.ts";
import { brokenSentence } from "../worker/answers.ts";
import type { Way } from "../worker/api.ts";
import { quickJobs } from "../worker/client.ts";
import { WayThumb } from "./WayThumb.tsx";

interface WayCardProps {
  readonly way: Way;
  /** The colourway that was asked about. */
  readonly from: string;
  readonly number: number;
}

export function WayCard({ way, from, number }: WayCardProps): ReactNode {
  const { project, tryChange, tell } = useBench();
  if (!project) return null;
  const press = async (button: HTMLElement) => {
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
  return (
    <li className="way">
      <WayThumb project={project} way={way} from={from} />
      <h3>
        <span className="unseen">Way {number}: </span>
        {capital(way.name)}
      </h3>
      <p className="way-proof">{proofWords(way, number)}</p>
      <ul className="way-because">
        {way.because.slice(0, 3).map((sentence, i) => (
          <li key={i}>{sentence}</li>
        ))}
      </ul>
      <button
        type="button"
        className="button"
        aria-label={`Try it: ${way.name}`}
        onClick={(event) => void press(event.currentTarget)}
      >
        Try it
      </button>
    </li>
  );
}

/** The first way is measured against every other; the later ones are the best that are plainly different. */
function proofWords(way: Way, number: number): string {
  if (number > 1) return `${percentWords(way.differs)} of the fabric in another colour than the first`;
  return way.proven ? "none better under these wishes" : `within ${percentWords(way.gap)} of the best there could be`;
}
