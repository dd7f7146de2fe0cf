/** When nothing fits: what stands in each other's way, the least that could be given up instead, and shades that would mend it. */
import type { ReactNode } from "react";
import type { RecolourResult, TriedWay } from "../worker/api.ts";
import { ShadesToFind } from "./ShadesToFind.tsx";
import { useTryWay } from "./useTryWay.ts";

type Clash = NonNullable<RecolourResult["clash"]>;

export function ClashCard({ clash, from }: { readonly clash: Clash; readonly from: string }): ReactNode {
  const tryWay = useTryWay(from);
  const told = clash.summary.length > 0 ? clash.summary : clash.parts.map(({ sentence }) => sentence);
  return (
    <div className="clash">
      <p>{clash.sentence}</p>
      {told.length > 0 && (
        <ul>
          {told.map((sentence, i) => (
            <li key={i}>{sentence}</li>
          ))}
        </ul>
      )}
      {clash.relaxations.length > 0 && (
        <>
          <p className="way-head">What could be given up instead, the least first</p>
          <ul className="way-places">
            {clash.relaxations.map(({ sentence, way }, i) => (
              <li key={i}>
                <span>{sentence}</span>
                <button
                  type="button"
                  className="button"
                  aria-label={`Try it: ${sentence}`}
                  onClick={(event) => void tryWay(relaxedWay(sentence, way), event.currentTarget)}
                >
                  Try it
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <ShadesToFind shades={clash.toFind} />
    </div>
  );
}

type Relaxed = Clash["relaxations"][number]["way"];

const relaxedWay = (sentence: string, { score: _, findings: __, ...way }: Relaxed): TriedWay => ({
  ...way,
  because: [sentence],
});
