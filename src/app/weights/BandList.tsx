/** Band by band from the top of the fabric: the cast it takes from afar, who leads it, how it shows and how far it reads. */
import { memo, useCallback, useState, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { capital, metresWords, rowsWords } from "../shell/words.ts";
import type { BandLine } from "../worker/api.ts";
import { WeightList, type WeighedYarn } from "./WeightList.tsx";
import { leadsWords, rangeWords, readsWords } from "./weightWords.ts";

interface BandListProps {
  /** Those that have a pattern, top first. */
  readonly bands: readonly BandLine[];
  readonly weightsOf: (band: string) => readonly WeighedYarn[];
  readonly nameOf: (band: string, colour: string) => string;
}

/** As many as fit beside a fabric without scrolling far. */
const SHOWN_FIRST = 7;
/** Lines of a band's own weights. */
const WEIGHTS_FIRST = 8;

export function BandList({ bands, weightsOf, nameOf }: BandListProps): ReactNode {
  const { view, showSpot, say } = useBench();
  const [all, setAll] = useState(false);
  const [chosen, setChosen] = useState<string | null>(null);
  const at = bands.findIndex(({ id }) => id === chosen);
  const shown = all ? bands : bands.slice(0, Math.max(SHOWN_FIRST, at + 1));
  const choose = useCallback(
    (band: BandLine, open: boolean, told: string) => {
      setChosen(open ? band.id : null);
      // Where parts take turns the weights would be left behind: there a button of its own leads to the fabric.
      if (document.querySelector(".fabric-scroll")?.checkVisibility())
        showSpot(open ? { chart: band.chart, rows: band.rows } : null);
      say(open ? told : "The band is closed.");
    },
    [showSpot, say],
  );
  return (
    <>
      <ul className="band-list">
        {shown.map((band) => {
          const open = band.id === chosen;
          const leads = leadsWords(band.leads, band.was.leads, (colour) => nameOf(band.id, colour));
          return (
            <li key={band.id} className="band" data-open={open}>
              <BandButton
                band={band}
                open={open}
                name={band.name ?? capital(rowsWords(band.rows))}
                rows={band.name === null ? "" : rowsWords(band.rows)}
                cast={band.cast.name}
                hex={band.cast.hex}
                shows={band.shows ?? ""}
                leads={leads}
                onChoose={choose}
              />
              {open && (
                <div className="band-more">
                  <p>{showsSentence(band, view.distance)}</p>
                  {band.shows === "lost" ? (
                    <p>From there it melts into one colour, so nothing in it draws the eye.</p>
                  ) : (
                    <WeightList lines={weightsOf(band.id)} first={WEIGHTS_FIRST} />
                  )}
                  <button
                    type="button"
                    className="button to-fabric"
                    onClick={() => {
                      showSpot({ chart: band.chart, rows: band.rows });
                      say(`The fabric shows ${rowsWords(band.rows)}, framed.`);
                    }}
                  >
                    Show {rowsWords(band.rows)} on the fabric
                  </button>
                </div>
              )}
            </li>
          );
        })}
      </ul>
      {bands.length > SHOWN_FIRST && (
        <button type="button" className="button quiet" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? "Only the top bands" : `${bands.length - shown.length} more bands below`}
        </button>
      )}
    </>
  );
}

interface BandButtonProps {
  readonly band: BandLine;
  readonly open: boolean;
  readonly name: string;
  readonly rows: string;
  readonly cast: string;
  readonly hex: string;
  readonly shows: string;
  readonly leads: string;
  readonly onChoose: (band: BandLine, open: boolean, told: string) => void;
}

/** Drawn anew only when a word of it is another. */
const BandButton = memo(
  function BandButton({ band, open, name, rows, cast, hex, shows, leads, onChoose }: BandButtonProps) {
    return (
      <button
        type="button"
        className="band-button"
        aria-expanded={open}
        onClick={() => onChoose(band, !open, `${name}: from afar ${cast}; ${leads}.`)}
      >
        <span className="swatch" style={{ background: hex }} />
        <span className="band-words">
          <span className="band-name">
            {name}
            {rows && <span className="band-rows"> {rows}</span>}
          </span>
          <span className="band-told">from afar: {cast}</span>
          <span className="band-told">{leads}</span>
        </span>
        <span className="band-shows">{shows}</span>
      </button>
    );
  },
  (one, other) =>
    one.open === other.open &&
    one.name === other.name &&
    one.rows === other.rows &&
    one.cast === other.cast &&
    one.hex === other.hex &&
    one.shows === other.shows &&
    one.leads === other.leads &&
    one.band.id === other.band.id &&
    one.band.chart === other.band.chart &&
    one.onChoose === other.onChoose,
);

function showsSentence({ shows, low, high, readsTo }: BandLine, distance: number): string {
  if (!shows || !readsTo) return "There is nothing to see in it from any distance.";
  const range = rangeWords(shows, low, high);
  return `It is ${shows} at ${metresWords(distance)}${range ? ` (${range})` : ""} and ${readsWords(readsTo)}.`;
}
