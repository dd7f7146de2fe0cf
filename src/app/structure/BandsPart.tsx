/** The bands from the top of the chart, main colour and contrast colours above them; the one that is chosen opens with all that she can say of it. */
import { useEffect, useRef, type ReactNode } from "react";
import { MainColour } from "../pattern/MainColour.tsx";
import { useBench } from "../shell/bench.ts";
import { capital, rowsWords } from "../shell/words.ts";
import type { BuiltBand } from "../worker/api.ts";
import { BandForm } from "./BandForm.tsx";
import type { PartProps } from "./partProps.ts";
import { bandCalled, bandName, bandSentences, bandShort, listWords } from "./structureWords.ts";

interface BandsPartProps extends PartProps {
  readonly chosen: BuiltBand | null;
  /** A row of the band; null closes it. */
  readonly onChoose: (row: number | null) => void;
}

export function BandsPart({ chart, built, nameOf, hexOf, chosen, onChoose }: BandsPartProps): ReactNode {
  const { say, project } = useBench();
  const { colours } = project!.pattern;
  const list = useRef<HTMLUListElement>(null);
  useEffect(() => {
    list.current?.querySelector("[data-open=true]")?.scrollIntoView({ block: "nearest" });
  }, [chosen?.rows[0]]);
  const called = (id: string): string => {
    const band = built.bands.find((one) => one.id === id);
    return band ? bandCalled(band) : id;
  };
  return (
    <>
      <p className="structure-colours">
        {built.main === null ? (
          "Nothing is knitted here yet."
        ) : (
          <>
            <Colour id={built.main} hexOf={hexOf} /> {capital(nameOf(built.main))} is the main colour
            {built.contrasts.length > 0 && `; in contrast to it ${listWords(built.contrasts.map(nameOf))}`}.
          </>
        )}
      </p>
      {built.main !== null && (
        <MainColour
          colours={colours.filter(({ id }) => id === built.main || built.contrasts.includes(id))}
          main={built.main}
          found={built.foundMain}
        />
      )}
      <ul className="structure-bands" ref={list} aria-label="Bands, the uppermost first">
        {built.bands.toReversed().map((band) => {
          const open = band.id === chosen?.id;
          return (
            <li key={band.rows[0]} data-open={open} data-plain={band.kind === "plain"}>
              <button
                type="button"
                className="structure-band"
                aria-expanded={open}
                onClick={() => {
                  onChoose(open ? null : band.rows[0]);
                  say(open ? "The band is closed." : `${bandName(band)}: ${bandShort(band)}.`);
                }}
              >
                <span className="structure-band-colours" aria-hidden="true">
                  {[...band.ground.slice(0, 1), ...band.pattern.slice(0, 2)].map((id) => (
                    <Colour key={id} id={id} hexOf={hexOf} />
                  ))}
                </span>
                <span>
                  <span className="structure-name">{bandName(band)}</span>
                  {band.said?.name !== undefined && <span className="structure-rows"> {rowsWords(band.rows)}</span>}
                  <span className="structure-short">
                    {bandShort(band)}
                    {band.said && <span className="structure-yours"> · yours</span>}
                  </span>
                </span>
              </button>
              {open && (
                <div className="structure-open">
                  {bandSentences(band, nameOf, called).map((sentence) => (
                    <p key={sentence}>{sentence}</p>
                  ))}
                  <BandForm
                    key={`${band.rows.join()} ${JSON.stringify(band.said)}`}
                    {...{ chart, built, nameOf, hexOf, band }}
                  />
                </div>
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
}

export const Colour = ({ id, hexOf }: { readonly id: string; readonly hexOf: PartProps["hexOf"] }): ReactNode => (
  <span className="swatch small" style={{ background: hexOf.get(id) ?? "transparent" }} aria-hidden="true" />
);
