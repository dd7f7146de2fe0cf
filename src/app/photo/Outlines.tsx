/** What is drawn over a photograph: yarns with their numbers, the reference, and what can be taken hold of. */
import { memo, type ReactNode } from "react";
import { placeOn } from "../ui/FramedPicture.tsx";
import type { Point } from "../worker/photoApi.ts";
import { cornersOf, GRIPS } from "./outline.ts";
import type { PhotoInHand } from "./photos.ts";
import { boxCorners, cornerKey, REFERENCE, referenceArea, type PlaceKey } from "./places.ts";

interface OutlinesProps {
  readonly photo: PhotoInHand;
  readonly first: number;
  readonly chosen: PlaceKey | null;
  readonly corner: Point | null;
  readonly corners: readonly Point[] | null;
}

export const Outlines = memo(function Outlines({ photo, first, chosen, corners }: OutlinesProps): ReactNode {
  const { width, height, yarns } = photo;
  const area = referenceArea(photo);
  const held = yarns.find(({ key }) => key === chosen)?.outline.box ?? (chosen === REFERENCE ? area : null);
  return (
    <>
      <svg className="photo-outlines" viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="none" aria-hidden="true">
        {corners && <Line points={corners} kind="reference" />}
        {area && <Line points={boxCorners(area)} kind="reference" place={REFERENCE} chosen={chosen === REFERENCE} />}
        {yarns.map(({ key, outline, isDoubtful }) => (
          <Line
            key={key}
            points={cornersOf(outline)}
            kind={isDoubtful ? "doubtful" : "yarn"}
            place={key}
            chosen={chosen === key}
          />
        ))}
      </svg>
      {yarns.map(({ key, outline }, at) => (
        <span
          key={key}
          className="photo-number"
          data-place={key}
          data-chosen={chosen === key}
          style={placeOn(photo, {
            x: outline.box.x + outline.box.width / 2,
            y: outline.box.y + outline.box.height / 2,
            width: 0,
            height: 0,
          })}
        >
          <span>{first + at}</span>
        </span>
      ))}
      {area && (
        <span className="photo-word" style={placeOn(photo, { ...area, height: 0 })}>
          {photo.reference.kind === "grey" ? "grey card" : "white paper"}
        </span>
      )}
      {corners?.map(([x, y], at) => (
        <span
          key={at}
          className="photo-grip corner"
          data-place={cornerKey(at)}
          data-chosen={chosen === cornerKey(at)}
          style={placeOn(photo, { x, y, width: 0, height: 0 })}
        >
          <span>{at + 1}</span>
        </span>
      ))}
      {held &&
        GRIPS.map((grip) => (
          <span
            key={`${grip.across} ${grip.down}`}
            className="photo-grip"
            data-place={chosen}
            data-across={grip.across}
            data-down={grip.down}
            style={placeOn(photo, {
              x: held.x + ((grip.across + 1) / 2) * held.width,
              y: held.y + ((grip.down + 1) / 2) * held.height,
              width: 0,
              height: 0,
            })}
          >
            <span />
          </span>
        ))}
    </>
  );
});

interface LineProps {
  readonly points: readonly Point[];
  readonly kind: "yarn" | "doubtful" | "reference";
  readonly place?: PlaceKey;
  readonly chosen?: boolean;
}

/** Black with white upon it: seen on any wool. */
function Line({ points, kind, place, chosen = false }: LineProps): ReactNode {
  const text = points.map(([x, y]) => `${Math.round(x)},${Math.round(y)}`).join(" ");
  return (
    <g className="photo-line" data-kind={kind} data-place={place} data-chosen={chosen}>
      <polygon points={text} className="under" />
      <polygon points={text} className="over" />
    </g>
  );
}
