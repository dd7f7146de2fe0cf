/** The shade of a yarn: what it is now, how sure, and five ways to find it. */
import { lazy, Suspense, useState, type ReactNode } from "react";
import { isOnScreen } from "../../colour/gamut.ts";
import { lchFromLab } from "../../colour/lab.ts";
import { plainName } from "../../colour/names.ts";
import { valueClass } from "../../colour/value.ts";
import { capital } from "../shell/words.ts";
import { Choice } from "../wishes/controls.tsx";
import { LikeThis } from "./LikeThis.tsx";
import { NamedShade } from "./NamedShade.tsx";
import { KNOWN_BY, shownHex, type ShadeDraft, type ShadeWayProps } from "./shadeDraft.ts";
import { ShadePicker } from "./ShadePicker.tsx";
import { TypedShade } from "./TypedShade.tsx";
import { Field } from "./YarnFieldset.tsx";

const CompareShade = lazy(() => import("./CompareShade.tsx").then((module) => ({ default: module.CompareShade })));

type Way = "compared" | "picked" | "like" | "named" | "typed";

const WAYS: readonly (readonly [Way, string])[] = [
  ["compared", "beside the ball"],
  ["picked", "picked here"],
  ["like", "like another"],
  ["named", "by its name"],
  ["typed", "typed"],
];

interface ShadeWaysProps extends ShadeWayProps {
  /** She wanted to go on without one. */
  readonly isMissing: boolean;
}

export function ShadeWays({ shade, isMissing, onShade }: ShadeWaysProps): ReactNode {
  const [way, setWay] = useState<Way>("picked");
  return (
    <section className="shade-ways" aria-labelledby="shade-ways-title">
      <h3 id="shade-ways-title">Its shade</h3>
      <ShadeNow shade={shade} />
      {shade && <HowSure shade={shade} onShade={onShade} />}
      {isMissing && (
        <p className="yarn-wrong" role="alert" data-wrong tabIndex={-1}>
          The shade: expected one of the ways below, found none yet.
        </p>
      )}
      <Choice legend="Found" value={way} options={WAYS} onChoose={setWay} />
      <div className="shade-way">
        {way === "compared" && (
          <Suspense fallback={<p role="status">Opening…</p>}>
            <CompareShade shade={shade} onShade={onShade} />
          </Suspense>
        )}
        {way === "picked" && <ShadePicker shade={shade} onShade={onShade} />}
        {way === "like" && <LikeThis shade={shade} onShade={onShade} />}
        {way === "named" && <NamedShade shade={shade} onShade={onShade} />}
        {way === "typed" && <TypedShade shade={shade} onShade={onShade} />}
      </div>
      <p className="caution">
        A photograph with a grey card, white paper or a colour chart in it is surer than any of these.
      </p>
    </section>
  );
}

/** The shade as large as there is room, with its name, so that it is known without colour too. */
function ShadeNow({ shade }: { readonly shade: ShadeDraft | null }): ReactNode {
  if (!shade) return <p className="shade-now empty">No shade yet.</p>;
  const { lab, uncertainty } = shade;
  const [L, C, h] = lchFromLab(lab).map(Math.round) as [number, number, number];
  return (
    <div className="shade-now" role="status">
      <span className="shade-patch" style={{ background: shownHex(shade) }} />
      <div>
        <p className="shade-name">{capital(plainName(lab))}</p>
        <p>
          {capital(valueClass(lab[0]))} in value, give or take {Number(uncertainty.toFixed(1))} ΔE00
        </p>
        <p className="shade-numbers">
          L* {L}, chroma {C}, hue {h}° · Lab {lab.map((part) => Math.round(part)).join(" ")} · {shownHex(shade)}
        </p>
        {!isOnScreen(lab) && (
          <p className="caution">
            An ordinary screen cannot show this colour: what you see is the nearest it has. The numbers are kept as they
            are.
          </p>
        )}
      </div>
    </div>
  );
}

function HowSure({
  shade,
  onShade,
}: {
  readonly shade: ShadeDraft;
  readonly onShade: ShadeWayProps["onShade"];
}): ReactNode {
  const [typed, setTyped] = useState<string | null>(null);
  const shown = typed ?? String(Number(shade.uncertainty.toFixed(1)));
  const value = Number(shown.replace(",", "."));
  const isWrong = shown.trim() === "" || !(value >= 0 && value <= 100);
  return (
    <div className="how-sure">
      <Field
        name="Give or take (ΔE00)"
        inputMode="decimal"
        value={shown}
        wrong={isWrong ? `Give or take: expected a number from 0 to 100, found “${shown}”.` : undefined}
        onType={(text) => {
          const next = Number(text.replace(",", "."));
          const fits = text.trim() !== "" && next >= 0 && next <= 100;
          setTyped(fits ? null : text);
          if (fits) onShade({ ...shade, uncertainty: next });
        }}
      />
      <div className="how-known" role="group" aria-label="How it is known">
        {KNOWN_BY.map(({ from, uncertainty, words }) => (
          <button
            key={words}
            type="button"
            className="button"
            aria-pressed={shade.from === from && shade.uncertainty === uncertainty}
            onClick={() => {
              setTyped(null);
              onShade({ ...shade, from, uncertainty });
            }}
          >
            {words}, ±{uncertainty}
          </button>
        ))}
      </div>
    </div>
  );
}
