/** A picker in lightness, chroma and hue, which are what she would say of a yarn; what the screen cannot show is marked and may still be chosen. */
import { useEffect, useId, useRef, useState, type PointerEvent as ReactPointerEvent, type ReactNode } from "react";
import { isOnScreen } from "../../colour/gamut.ts";
import { labFromLch, lchFromLab, linearFromLab, type Lch } from "../../colour/lab.ts";
import { bytesFromLinear } from "../../colour/srgb.ts";
import { BY_EYE } from "./shadeDraft.ts";
import type { ShadeWayProps } from "./shadeDraft.ts";

/** Chroma at the plane's right edge: dyed wool stays below about 90 (from memory). */
const MOST_CHROMA = 100;
/** Where a picker without a shade begins: the middle of everything. */
const MIDDLE: Lch = [55, 20, 60];
/** Pixels of the plane that are reckoned; they are shown larger. */
const PLANE = { width: 100, height: 100 };
/** L* and C* of the strip of hues: most hues can be shown there. */
const STRIP = { lightness: 65, chroma: 45 };

export function ShadePicker({ shade, onShade }: ShadeWayProps): ReactNode {
  const given = shade ? lchFromLab(shade.lab) : MIDDLE;
  // A grey has no hue of its own; the one last chosen is kept while the chroma is nought.
  const [hue, setHue] = useState(given[2]);
  const [lightness, chroma] = given;
  const shownHue = chroma < 0.5 ? hue : given[2];
  const pick = (next: Lch): void => {
    setHue(next[2]);
    onShade({ lab: labFromLch(next), uncertainty: BY_EYE, from: "eye" });
  };
  const sliders = [
    { name: "Lightness", value: lightness, most: 100, at: (value: number): Lch => [value, chroma, shownHue] },
    { name: "Chroma", value: chroma, most: MOST_CHROMA, at: (value: number): Lch => [lightness, value, shownHue] },
    { name: "Hue", value: shownHue, most: 359, at: (value: number): Lch => [lightness, chroma, value] },
  ];
  return (
    <div className="shade-picker">
      <Plane lch={[lightness, chroma, shownHue]} onPick={pick} />
      <div className="picker-sliders">
        {sliders.map(({ name, value, most, at }) => (
          <Slider key={name} name={name} value={value} most={most} onMove={(next) => pick(at(next))}>
            {name === "Hue" && <HueStrip />}
          </Slider>
        ))}
        <p className="yarn-hint">
          Up is lighter, right is stronger. Hatched: more than a screen shows; the numbers count all the same.
        </p>
      </div>
    </div>
  );
}

interface PlaneProps {
  readonly lch: Lch;
  readonly onPick: (lch: Lch) => void;
}

/** For the pointer; the sliders beside it do the same by keys. */
function Plane({ lch: [lightness, chroma, hue], onPick }: PlaneProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const drawn = Math.round(hue);
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context) return;
    const image = context.createImageData(PLANE.width, PLANE.height);
    for (let y = 0, to = 0; y < PLANE.height; y++)
      for (let x = 0; x < PLANE.width; x++, to += 4) {
        const lab = labFromLch([100 * (1 - y / (PLANE.height - 1)), (MOST_CHROMA * x) / (PLANE.width - 1), drawn]);
        const hatch = (x + y) % 8 < 2 ? 150 : 168;
        const bytes = isOnScreen(lab) ? bytesFromLinear(linearFromLab(lab)) : [hatch, hatch, hatch];
        image.data.set([...bytes, 255], to);
      }
    context.putImageData(image, 0, 0);
  }, [drawn]);
  const at = (event: ReactPointerEvent): void => {
    const { left, top, width, height } = canvas.current!.getBoundingClientRect();
    const within = (part: number): number => Math.min(1, Math.max(0, part));
    onPick([
      100 * (1 - within((event.clientY - top) / height)),
      MOST_CHROMA * within((event.clientX - left) / width),
      hue,
    ]);
  };
  return (
    <div className="picker-plane">
      <canvas
        ref={canvas}
        {...PLANE}
        aria-hidden="true"
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          at(event);
        }}
        onPointerMove={(event) => event.buttons > 0 && at(event)}
      />
      <span
        className="picker-mark"
        style={{ left: `${Math.min(100, (100 * chroma) / MOST_CHROMA)}%`, top: `${100 - lightness}%` }}
      />
    </div>
  );
}

function HueStrip(): ReactNode {
  const stops = Array.from({ length: 37 }, (_, at) => {
    const [r, g, b] = bytesFromLinear(linearFromLab(labFromLch([STRIP.lightness, STRIP.chroma, at * 10])));
    return `rgb(${r} ${g} ${b})`;
  });
  return <span className="hue-strip" style={{ background: `linear-gradient(to right, ${stops.join(",")})` }} />;
}

interface SliderProps {
  readonly name: string;
  readonly value: number;
  readonly most: number;
  readonly onMove: (value: number) => void;
  readonly children?: ReactNode;
}

/** Keys step by one, page keys by ten, as ranges do in every browser. */
function Slider({ name, value, most, onMove, children }: SliderProps): ReactNode {
  const id = useId();
  return (
    <div className="picker-slider">
      <label htmlFor={id}>{name}</label>
      <output htmlFor={id}>
        {Math.round(value)}
        {name === "Hue" ? "°" : ""}
      </output>
      <input
        id={id}
        type="range"
        min={0}
        max={most}
        step={1}
        value={Math.min(most, Math.round(value))}
        onChange={(event) => onMove(Number(event.target.value))}
      />
      {children}
    </div>
  );
}
