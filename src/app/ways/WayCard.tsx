/** One way: its small fabric, what is plain about it, why, how sure, and a trial of it on the large fabric. */
import type { ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { capital, percentWords } from "../shell/words.ts";
import type { Way } from "../worker/api.ts";
import { ShadesToFind } from "./ShadesToFind.tsx";
import { useTryWay } from "./useTryWay.ts";
import { WayDetails } from "./WayDetails.tsx";
import { WayThumb } from "./WayThumb.tsx";

interface WayCardProps {
  readonly way: Way;
  /** The colourway that was asked about. */
  readonly from: string;
  readonly number: number;
}

export function WayCard({ way, from, number }: WayCardProps): ReactNode {
  const { project } = useBench();
  const tryWay = useTryWay(from);
  if (!project) return null;
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
      <p className="way-sure">{way.sure.sentence}</p>
      <WayDetails way={way} project={project} />
      <ShadesToFind shades={way.toFind} />
      <button
        type="button"
        className="button"
        aria-label={`Try it: ${way.name}`}
        onClick={(event) => void tryWay(way, event.currentTarget)}
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
