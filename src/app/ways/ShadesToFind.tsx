/** Shades to look for: the region of colour that would do, as a swatch and in words, and why her nearest yarns do not. */
import type { ReactNode } from "react";
import { YarnSwatch } from "../findings/Findings.tsx";
import { useBench } from "../shell/bench.ts";
import type { Way } from "../worker/api.ts";

export function ShadesToFind({ shades }: { readonly shades: Way["toFind"] }): ReactNode {
  const { project } = useBench();
  if (!project || shades.length === 0) return null;
  return (
    <div className="to-find">
      <p className="way-head">{shades.length === 1 ? "A shade to look for" : "Shades to look for"}</p>
      <ul className="way-places">
        {shades.map(({ colour, hex, name, sentence, nearest }) => (
          <li key={`${colour} ${hex}`}>
            <span className="way-place">
              <span className="swatch" style={{ background: hex }} /> {colour} · {name}
            </span>
            <span>{sentence}</span>
            {nearest.length > 0 && (
              <details className="way-details">
                <summary>Your nearest yarns</summary>
                <ul className="way-places">
                  {nearest.map(({ yarn, deltaE00, why }) => (
                    <li key={yarn}>
                      <span>
                        <YarnSwatch project={project} yarn={yarn} />{" "}
                        {project.yarns.find(({ id }) => id === yarn)?.name ?? yarn}, {deltaE00.toFixed(0)} ΔE00 away
                      </span>
                      <span className="way-next">{why}</span>
                    </li>
                  ))}
                </ul>
              </details>
            )}
          </li>
        ))}
      </ul>
      <p className="way-next">A screen’s colour and a shop’s are two: hold the wool beside your own in daylight.</p>
    </div>
  );
}
