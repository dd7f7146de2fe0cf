/** A photograph with what was found on it, corrected by hand: outlines drawn, moved, resized and removed, by pointer or by keys. */
import { useEffect, useRef, useState, type KeyboardEvent as ReactKeyboardEvent, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { boxBetween, FramedPicture, placeOn, type Pull } from "../ui/FramedPicture.tsx";
import type { Point } from "../worker/photoApi.ts";
import { Choice } from "../wishes/controls.tsx";
import { drawnOutline, LEAST_OUTLINE, middleOfOutline, type Grip, type OutlineForm } from "./outline.ts";
import { Outlines } from "./Outlines.tsx";
import { freshYarn, type PhotoInHand } from "./photos.ts";
import {
  boxOfPlace,
  boxPut,
  cornerOf,
  cornerPut,
  middleOf,
  movedBy,
  placesOn,
  pulledTo,
  REFERENCE,
  shownCorners,
  type PlaceChange,
  type PlaceKey,
} from "./places.ts";

/** What a hand on the photograph does. */
export type Tool = "correct" | OutlineForm | "frame";

interface PhotoPaneProps {
  readonly photo: PhotoInHand;
  /** The number of its first yarn. */
  readonly first: number;
  readonly chosen: PlaceKey | null;
  readonly tool: Tool;
  readonly onTool: (tool: Tool) => void;
  readonly onChoose: (key: PlaceKey | null) => void;
  /** The change is worked out on the photograph as it is by then. */
  readonly onChange: (how: (photo: PhotoInHand) => PlaceChange) => void;
}

/** A share of the photograph's longer side by which an arrow key moves or resizes; our choice. */
const KEY_STEP = 1 / 200;
/** CSS pixels below which a press was no pull. */
const STILL = 5;

let lastDrawn = 0;

export function PhotoPane(props: PhotoPaneProps): ReactNode {
  const { photo, first, chosen, tool, onTool, onChoose, onChange } = props;
  const { say } = useBench();
  const frame = useRef<HTMLDivElement>(null);
  const hand = useRef<HTMLDivElement>(null);
  const [corner, setCorner] = useState<Point | null>(null);
  useEffect(() => setCorner(null), [tool, photo.id]);

  /** Pixels of the photograph that a hand cannot tell from none. */
  const still = () => (STILL * photo.width) / Math.max(1, frame.current?.offsetWidth ?? photo.width);
  const add = (box: ReturnType<typeof boxBetween>, form: OutlineForm): PlaceKey => {
    const key = `${photo.id}.drawn ${++lastDrawn}`;
    onChange(({ yarns }) => ({ yarns: [...yarns, freshYarn(key, drawnOutline(form, box, photo))] }));
    onChoose(key);
    return key;
  };
  const remove = (key: PlaceKey) => {
    const keys = placesOn(photo);
    if (!photo.yarns.some((yarn) => yarn.key === key)) return;
    const next = keys[keys.indexOf(key) + 1] ?? keys[keys.indexOf(key) - 1] ?? null;
    say(`${nameOf(photo, key, first)} removed.`);
    onChange(({ yarns }) => ({ yarns: yarns.filter((yarn) => yarn.key !== key) }));
    onChoose(next);
  };

  const draw = (from: Point, target: Element): Pull => {
    // The card or the paper was outlined as if it were a yarn: a press on it frames it.
    const under = target.closest<HTMLElement | SVGElement>("[data-place]")?.dataset.place;
    const outlined = tool === "frame" && !corner ? photo.yarns.find((yarn) => yarn.key === under) : undefined;
    const start = corner ?? from;
    const put = (at: Point): boolean => {
      const box = boxBetween(start, at);
      if (Math.max(box.width, box.height) < still() || Math.min(box.width, box.height) < LEAST_OUTLINE) return false;
      if (tool === "frame") {
        onChange((now) => boxPut(now, REFERENCE, box));
        onChoose(REFERENCE);
      } else if (key) {
        const drawn = key;
        onChange((now) => boxPut(now, drawn, box));
      } else key = add(box, tool as OutlineForm);
      return true;
    };
    let key: PlaceKey | null = null;
    // Two presses, at opposite corners, do as well as a pull from one to the other.
    let isDrawn = corner !== null && put(from);
    return {
      to: (at) => (isDrawn = put(at) || isDrawn),
      end: () => {
        if (!isDrawn && outlined) {
          onChange((now) => boxPut(now, REFERENCE, middleOfOutline(outlined.outline)));
          onChoose(REFERENCE);
          isDrawn = true;
        }
        setCorner(isDrawn ? null : from);
        if (isDrawn && tool === "frame") onTool("correct");
        if (!isDrawn) say("Now press at the opposite corner.");
      },
    };
  };
  const press = (at: Point, target: Element): Pull | null => {
    if (tool !== "correct") return draw(at, target);
    const held = target.closest<HTMLElement | SVGElement>("[data-place]");
    const key = held?.dataset.place;
    if (!held || key === undefined) {
      onChoose(null);
      return null;
    }
    onChoose(key);
    const which = cornerOf(key);
    const before = boxOfPlace(photo, key);
    if (which !== null) return { to: (to) => onChange((now) => cornerPut(now, which, to)) };
    if (!before) return null;
    if (held.dataset.across !== undefined) {
      const grip = { across: Number(held.dataset.across), down: Number(held.dataset.down) } as Grip;
      return { to: (to) => onChange((now) => pulledTo(now, key, before, grip, to)) };
    }
    let isMoved = false;
    return {
      to: ([x, y]) => {
        isMoved ||= Math.hypot(x - at[0], y - at[1]) > still();
        if (!isMoved) return;
        onChange((now) => boxPut(now, key, { ...before, x: before.x + x - at[0], y: before.y + y - at[1] }));
      },
    };
  };

  const onKey = (event: ReactKeyboardEvent) => {
    const keys = placesOn(photo);
    const step = Math.max(1, Math.round(KEY_STEP * Math.max(photo.width, photo.height))) * (event.altKey ? 10 : 1);
    const arrow = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    const at = chosen === null ? -1 : keys.indexOf(chosen);
    const choose = (index: number) => {
      const key = keys[Math.max(0, Math.min(keys.length - 1, index))];
      if (key === undefined) return say("Nothing is outlined yet.");
      onChoose(key);
      say(`${nameOf(photo, key, first)}: ${placeWords(photo, key)}.`);
    };
    if (arrow && chosen !== null && at >= 0) {
      const [across, down] = arrow as [number, number];
      const change = (now: PhotoInHand): PlaceChange => {
        const box = event.shiftKey ? boxOfPlace(now, chosen) : null;
        if (!box) return movedBy(now, chosen, across * step, down * step);
        return boxPut(now, chosen, { ...box, width: box.width + across * step, height: box.height + down * step });
      };
      onChange(change);
      say(`${nameOf(photo, chosen, first)}: ${placeWords({ ...photo, ...change(photo) }, chosen)}.`);
    } else if (arrow || event.key === "PageDown") choose(at + 1);
    else if (event.key === "PageUp") choose(at - 1);
    else if (event.key === "Home") choose(0);
    else if (event.key === "End") choose(keys.length - 1);
    else if ((event.key === "Delete" || event.key === "Backspace") && chosen !== null) remove(chosen);
    else if (event.key === "Escape" && (tool !== "correct" || corner)) onTool("correct");
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  const framing = photo.reference.kind === "grey" ? "Frame the card" : "Frame the paper";
  const canFrame = photo.reference.kind === "grey" || photo.reference.kind === "white";
  return (
    <div className="photo-pane">
      <div className="photo-tools">
        <Choice
          legend="With your hand"
          value={tool}
          options={[
            ["correct", "correct"],
            ["ellipse", "add a ball"],
            ["box", "add a box"],
            ...(canFrame ? [["frame", framing.toLowerCase()] as const] : []),
          ]}
          onChoose={onTool}
        />
        <button type="button" className="button" onClick={() => add(middleOf(photo), "ellipse")}>
          Add in the middle
        </button>
        <button
          type="button"
          className="button"
          disabled={!photo.yarns.some(({ key }) => key === chosen)}
          onClick={() => chosen !== null && remove(chosen)}
        >
          Remove {photo.yarns.some(({ key }) => key === chosen) ? nameOf(photo, chosen!, first) : "the chosen"}
        </button>
      </div>
      <div
        ref={frame}
        className="photo-frame"
        onMouseDown={(event) => {
          // What a press has chosen, keys go on with: Delete removes it, arrows move it.
          event.preventDefault();
          hand.current?.focus({ preventScroll: true });
        }}
      >
        <FramedPicture
          address={photo.preview}
          alt={`The photograph ${photo.file.name}`}
          size={photo}
          isDrawn={tool !== "correct"}
          onPress={press}
        >
          <Outlines photo={photo} first={first} chosen={chosen} corner={corner} corners={shownCorners(photo)} />
          <div
            ref={hand}
            className="photo-keys"
            role="application"
            tabIndex={0}
            aria-label={`Outlines on the photograph. ${
              chosen === null ? "None is chosen" : `${nameOf(photo, chosen, first)}: ${placeWords(photo, chosen)}`
            }. Page Down chooses the next, arrow keys move it, with Shift they resize it, Delete removes it.`}
            onKeyDown={onKey}
          />
          {corner && (
            <span
              className="photo-first-corner"
              style={placeOn(photo, { x: corner[0], y: corner[1], width: 0, height: 0 })}
            />
          )}
        </FramedPicture>
      </div>
      <p className="photo-hint">{hintOf(tool, corner !== null)}</p>
    </div>
  );
}

function hintOf(tool: Tool, isHalf: boolean): string {
  if (isHalf) return "Now press at the opposite corner.";
  if (tool === "correct")
    return "Press an outline to choose it, pull it to move it, pull its edge to resize it. With keys: Page Down chooses the next, arrows move it, Shift and arrows resize it, Delete removes it.";
  return "Pull across it, or press at one corner and then at the opposite one. Escape goes back to correcting.";
}

export function nameOf(photo: PhotoInHand, key: PlaceKey, first: number): string {
  const corner = cornerOf(key);
  if (corner !== null) return `corner ${corner + 1} of the chart`;
  if (key === REFERENCE) return photo.reference.kind === "grey" ? "the grey card" : "the white paper";
  return `yarn ${first + photo.yarns.findIndex((yarn) => yarn.key === key)}`;
}

function placeWords(photo: PhotoInHand, key: PlaceKey): string {
  const corner = cornerOf(key);
  if (corner !== null) {
    const [x, y] = shownCorners(photo)?.[corner] ?? [0, 0];
    return `${Math.round(x)} from the left, ${Math.round(y)} from the top`;
  }
  const box = boxOfPlace(photo, key);
  return box ? `${box.width} by ${box.height} pixels, ${box.x} from the left, ${box.y} from the top` : "";
}
