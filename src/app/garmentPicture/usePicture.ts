/** The picture of a garment in hand: opened off the main thread, and every place on it measured as soon as it is picked. */
import { useCallback, useEffect, useRef, useState } from "react";
import { problemSentence } from "../../base/problem.ts";
import { mixedPlace } from "../../intake/garmentPicture.ts";
import type { PhotographedYarn, PhotoReference } from "../../jobs/shade.ts";
import type { Box } from "../../raster/raster.ts";
import { brokenSentence } from "../worker/answers.ts";
import { Stopped } from "../worker/client.ts";
import type { LookedAt, Surveyed } from "../worker/photoApi.ts";
import { photoDesk } from "../worker/photoClient.ts";

export interface PickedPlace {
  readonly key: string;
  /** Chart colour. */
  readonly colour: string;
  /** Pixels of the picture. */
  readonly area: Box;
  /** null as long as it is being measured, or where it cannot be. */
  readonly told: PhotographedYarn | null;
  /** A small picture of the place, from the picture's own pixels. */
  readonly close: string;
  readonly sentences: readonly string[];
  /** By which reference it was measured. */
  readonly by: Surveyed | null;
}

export interface OpenedPicture {
  readonly file: File;
  readonly address: string;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly foundChart: boolean;
}

/** What of the picture she says is of known colour; null where it has still to be shown. */
export type Neutral = { readonly kind: "find" } | { readonly kind: "grey" | "white"; readonly area: Box | null };

export interface PictureInHand {
  readonly picture: OpenedPicture | null;
  readonly busy: string | null;
  readonly sentences: readonly string[];
  readonly places: readonly PickedPlace[];
  readonly neutral: Neutral;
  readonly open: (file: File) => void;
  readonly pick: (colour: string, area: Box) => void;
  readonly unpick: (key: string) => void;
  readonly setNeutral: (neutral: Neutral) => void;
}

const PHOTO = "garment";

export function usePicture(): PictureInHand {
  const [desk] = useState(photoDesk);
  const [picture, setPicture] = useState<OpenedPicture | null>(null);
  const [looked, setLooked] = useState<LookedAt | null>(null);
  const [surveyed, setSurveyed] = useState<Surveyed | null>(null);
  const [busy, setBusy] = useState<string | null>(null);
  const [sentences, setSentences] = useState<readonly string[]>([]);
  const [places, setPlaces] = useState<readonly PickedPlace[]>([]);
  const [neutral, setNeutralNow] = useState<Neutral>({ kind: "find" });
  const count = useRef(0);
  const asking = useRef(new Set<string>());

  useEffect(() => () => desk.stop(), [desk]);
  const address = picture?.address;
  useEffect(() => () => void (address && URL.revokeObjectURL(address)), [address]);

  const trying = useCallback(async (words: string, work: () => Promise<void>) => {
    setBusy(words);
    try {
      await work();
    } catch (reason) {
      if (reason instanceof Stopped) return;
      setSentences([brokenSentence(reason)]);
    }
    setBusy(null);
  }, []);

  const open = useCallback(
    (file: File) => {
      desk.stop();
      asking.current.clear();
      void trying("Opening the picture…", async () => {
        setPlaces([]);
        setNeutralNow({ kind: "find" });
        const { value, problems } = await desk.look({ id: PHOTO, file }, () => {});
        if (!value) {
          setPicture(null);
          setSentences(problems.map(problemSentence));
          return;
        }
        const { width, height } = value;
        const foundChart = value.surveyed?.told.kind === "patches";
        setLooked(value);
        setSurveyed(value.surveyed);
        setPicture({ file, address: URL.createObjectURL(value.preview), width, height, foundChart });
        setSentences([]);
      });
    },
    [desk, trying],
  );

  const setNeutral = useCallback(
    (next: Neutral) => {
      setNeutralNow(next);
      if (!picture) return;
      if (next.kind === "find") return setSurveyed(looked?.surveyed ?? null);
      if (!next.area) return;
      const reference: PhotoReference = { kind: next.kind, area: next.area };
      void trying("Looking at the reference…", async () => {
        const { value, problems } = await desk.survey({ id: PHOTO, file: picture.file }, reference, () => {});
        setSentences(problems.map(problemSentence));
        if (value) setSurveyed(value);
      });
    },
    [desk, looked, picture, trying],
  );

  // Places of an older reference are measured anew; what is being measured is not asked for twice.
  useEffect(() => {
    if (!picture || !surveyed) return;
    const old = places.filter(({ key, by }) => by !== surveyed && !asking.current.has(key));
    if (old.length === 0) return;
    for (const { key } of old) asking.current.add(key);
    const asked = old.map(({ key, colour, area }) => ({ key, area, where: `the place for ${colour}` }));
    desk
      .measure({ id: PHOTO, file: picture.file }, surveyed, asked, ({ key, outcome, picture: close }) => {
        asking.current.delete(key);
        setPlaces((all) =>
          all.map((place) => {
            if (place.key !== key) return place;
            const mixed = outcome.value && mixedPlace(outcome.value, `the place for ${place.colour}`);
            const problems = [...outcome.problems, ...(mixed ? [mixed] : [])];
            return { ...place, told: outcome.value, close, by: surveyed, sentences: problems.map(problemSentence) };
          }),
        );
      })
      .catch((reason: unknown) => {
        for (const { key } of old) asking.current.delete(key);
        if (!(reason instanceof Stopped)) setSentences([brokenSentence(reason)]);
      });
  }, [desk, picture, surveyed, places]);

  const pick = useCallback((colour: string, area: Box) => {
    const key = `place ${++count.current}`;
    setPlaces((all) => [...all, { key, colour, area, told: null, close: "", sentences: [], by: null }]);
  }, []);
  const unpick = useCallback((key: string) => setPlaces((all) => all.filter((place) => place.key !== key)), []);

  return { picture, busy, sentences, places, neutral, open, pick, unpick, setNeutral };
}
