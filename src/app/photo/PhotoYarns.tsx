/** Yarns from photographs: chosen, looked over, corrected, named, and put onto her shelf in one act. */
import { useCallback, useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { DoorHead } from "../ui/DoorHead.tsx";
import { useShelf } from "../stash/useShelf.ts";
import { Refused } from "../ui/Refused.tsx";
import { useFilesIn } from "../ui/useFilesIn.ts";
import "../style/photo.css";
import { detailsOf, DetailFields, isUnderstood } from "./DetailFields.tsx";
import { PhotoChoice } from "./PhotoChoice.tsx";
import { PhotoPane, type Tool } from "./PhotoPane.tsx";
import { fitted, middleOfOutline } from "./outline.ts";
import type { PhotoYarn } from "./photos.ts";
import { REFERENCE } from "./places.ts";
import { PhotoStrip } from "./PhotoStrip.tsx";
import { firstChoice, ReferencePanel } from "./ReferencePanel.tsx";
import { NO_DETAILS, shelfEdits, type ReadyYarn, type YarnDetails } from "./shelving.ts";
import { usePhotos } from "./usePhotos.ts";
import { WorkProgress } from "./WorkProgress.tsx";
import { suggestedNames } from "./yarnNames.ts";
import { YarnRow } from "./YarnRow.tsx";

/** Maker and quality of the next photographs are likely those of the last. */
let lastCommon: YarnDetails = NO_DETAILS;

export function PhotoYarns({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { say, project } = useBench();
  const { shelf, commitShelf } = useShelf();
  const work = usePhotos();
  const { photos, edit } = work;
  const heading = useRef<HTMLHeadingElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const [shown, setShown] = useState<string | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const [open, setOpen] = useState<string | null>(null);
  const [tool, setTool] = useState<Tool>("correct");
  const [common, setCommon] = useState(lastCommon);
  /** Names of a pasted list for which there was no yarn. */
  const [unused, setUnused] = useState<readonly string[]>([]);
  const photo = photos.find(({ id }) => id === shown) ?? photos[0] ?? null;
  useEffect(() => heading.current?.focus(), []);

  const rows = useMemo(() => photos.flatMap((one) => one.yarns.map((yarn) => ({ photo: one, yarn }))), [photos]);
  const names = useMemo(
    () =>
      suggestedNames(
        rows.map(({ yarn }) => (yarn.name.trim() ? null : (yarn.told?.outcome.value?.lab ?? null))),
        [...shelf.yarns.map(({ name }) => name), ...rows.map(({ yarn }) => yarn.name)],
      ),
    [rows, shelf],
  );
  const inHand = useRef(photos);
  inHand.current = photos;
  const firstOf = (id: string) => rows.findIndex((row) => row.photo.id === id) + 1;

  const choose = useCallback((id: string, key: string | null) => {
    setShown(id);
    setChosen(key);
    setTool("correct");
  }, []);
  const showRow = useCallback((key: string | undefined, block: ScrollLogicalPosition) => {
    // Where photograph and list scroll together, the photograph would be pulled away from under the hand.
    if (!list.current || getComputedStyle(list.current).overflowY !== "auto") return;
    const rows = [...list.current.querySelectorAll<HTMLElement>("[data-yarn]")];
    rows.find((row) => row.dataset.yarn === key)?.scrollIntoView({ block });
  }, []);
  useEffect(() => {
    if (chosen !== null) showRow(chosen, "nearest");
  }, [chosen, showRow]);
  const change = useCallback(
    (id: string, key: string, fields: Partial<PhotoYarn>) =>
      edit(id, ({ yarns }) => ({ yarns: yarns.map((yarn) => (yarn.key === key ? { ...yarn, ...fields } : yarn)) })),
    [edit],
  );
  const remove = useCallback(
    (id: string, key: string) => {
      edit(id, ({ yarns }) => ({ yarns: yarns.filter((yarn) => yarn.key !== key) }));
      setChosen(null);
      list.current?.focus();
    },
    [edit],
  );
  const refer = useCallback(
    (id: string, key: string, kind: "grey" | "white") => {
      edit(id, (now) => {
        const yarn = now.yarns.find((one) => one.key === key);
        if (!yarn) return {};
        const area = fitted(middleOfOutline(yarn.outline), now);
        return {
          reference: firstChoice(kind, now, inHand.current, area),
          yarns: now.yarns.filter((one) => one.key !== key),
        };
      });
      setChosen(REFERENCE);
      list.current?.focus();
    },
    [edit],
  );
  const onNext = useCallback((number: number, direction: 1 | -1) => {
    const field = list.current?.querySelector<HTMLInputElement>(`[data-name="${number + direction}"]`);
    if (field) field.select();
    else if (direction === 1) list.current?.querySelector<HTMLElement>(".photo-put")?.focus();
  }, []);
  const here = useRef(rows);
  here.current = rows;
  const onNames = useCallback(
    (number: number, given: readonly string[]) => {
      given.forEach((name, at) => {
        const row = here.current[number - 1 + at];
        if (row) change(row.photo.id, row.yarn.key, { name: name.slice(0, 120) });
      });
      const taken = Math.min(given.length, here.current.length - number + 1);
      setUnused(given.slice(taken));
      say(`${taken === 1 ? "1 name" : `${taken} names`} written, from yarn ${number} on.`);
    },
    [change, say],
  );

  const ready = rows.flatMap(({ yarn }, at): ReadyYarn[] => {
    const told = yarn.told?.outcome.value;
    if (!told) return [];
    const details = detailsOf(yarn.own, common);
    const name = yarn.name.trim() || names[at]!;
    return [{ name, told, picture: yarn.told!.picture, details, anew: yarn.anew }];
  });
  const shadeless = rows.flatMap(({ yarn }, at) => (yarn.told?.outcome.value ? [] : [at + 1]));
  const isWrong = ready.some(({ details }) => !isUnderstood(details));
  const put = () => {
    const edits = shelfEdits(ready, shelf.yarns, project?.yarns ?? []);
    const words = `${countOf(ready.length)} put on the shelf`;
    if (!commitShelf(edits.shelf, words, edits.project)) return;
    const left = rows.length - ready.length;
    const isWaiting = photos.some(({ state }) => state === "waiting");
    if (left === 0 && !isWaiting) {
      work.clear();
      return onClose();
    }
    for (const { id, state, yarns } of photos)
      if (state === "ready" && yarns.every(({ told }) => told?.outcome.value)) work.remove(id);
      else edit(id, (now) => ({ yarns: now.yarns.filter(({ told }) => !told?.outcome.value) }));
    list.current?.focus();
    const without = left > 0 ? ` ${left} without a shade ${left === 1 ? "is" : "are"} left here.` : "";
    say(`${words}.${without}${isWaiting ? " Not all photographs are looked at yet." : ""}`);
  };

  const add = useCallback(
    (files: readonly File[]) => {
      work.add(files);
      if (files.length === 0) return;
      setTool("correct");
      // The button that was pressed goes away with the door.
      if (inHand.current.length === 0) heading.current?.focus();
    },
    [work],
  );
  const drop = useFilesIn(add);

  return (
    <section className="photo-yarns" aria-labelledby="photo-yarns-title" {...drop}>
      <DoorHead
        id="photo-yarns-title"
        title="Yarns from photographs"
        back="Back to your yarns"
        heading={heading}
        onClose={onClose}
      />
      {photos.length === 0 ? (
        <PhotoChoice onFiles={add} />
      ) : (
        <>
          <PhotoStrip
            photos={photos}
            shown={photo?.id ?? null}
            progress={work.progress}
            onShow={(id) => {
              choose(id, null);
              showRow(photos.find((one) => one.id === id)?.yarns[0]?.key, "start");
            }}
            onRemove={(id) => {
              work.remove(id);
              heading.current?.focus();
            }}
            onFiles={add}
          />
          <WorkProgress
            photos={photos}
            progress={work.progress}
            isStopped={work.isStopped}
            onStop={work.stop}
            onGoOn={work.goOn}
          />
          <div className="photo-parts">
            <div className="photo-part-picture">
              {photo?.state === "ready" && (
                <>
                  <ReferencePanel
                    photo={photo}
                    photos={photos}
                    onTool={setTool}
                    onChange={(how) => edit(photo.id, how)}
                  />
                  <PhotoPane
                    photo={photo}
                    first={firstOf(photo.id)}
                    chosen={chosen}
                    tool={tool}
                    onTool={setTool}
                    onChoose={setChosen}
                    onChange={(how) => edit(photo.id, how)}
                  />
                </>
              )}
              {photo?.state === "refused" && (
                <Refused title={`${photo.file.name} was not opened`} sentences={photo.told} />
              )}
              {photo?.state === "waiting" && <div className="photo-waiting">{photo.file.name}</div>}
            </div>
            <div className="photo-part-yarns" ref={list} tabIndex={-1}>
              <h3 id="photo-list-title">
                Yarns <span className="count">{rows.length}</span>
              </h3>
              {rows.length === 0 ? (
                <p className="empty">
                  {work.progress ? "Nothing is outlined yet." : "Nothing was outlined. Add yarns on the photograph."}
                </p>
              ) : (
                <>
                  <p className="photo-hint">
                    Each shade is an estimate with its range, which should hold the truth in four cases of five; a
                    swatch settles it. Enter goes on to the next name, a list of names can be pasted, and what is left
                    empty gets the name that is shown.
                  </p>
                  <details className="photo-common">
                    <summary>What holds for all of them</summary>
                    <DetailFields
                      legend="For all of them"
                      details={common}
                      onChange={(details) => setCommon((lastCommon = { ...common, ...details }))}
                    />
                  </details>
                  <ol className="photo-list" aria-labelledby="photo-list-title">
                    {rows.map(({ photo: its, yarn }, at) => (
                      <YarnRow
                        key={yarn.key}
                        photo={its}
                        yarn={yarn}
                        number={at + 1}
                        suggested={names[at]!}
                        isChosen={chosen === yarn.key}
                        isOpen={open === yarn.key}
                        common={common}
                        shelf={shelf.yarns}
                        onChoose={choose}
                        onOpen={setOpen}
                        onChange={change}
                        onRemove={remove}
                        onReference={refer}
                        onNext={onNext}
                        onNames={onNames}
                      />
                    ))}
                  </ol>
                  <div className="photo-end">
                    {isWrong && <p role="alert">A number among the details cannot be understood.</p>}
                    {shadeless.length > 0 && !work.progress && (
                      <p className="photo-hint">
                        Without a shade, and so not among them: yarn {shadeless.slice(0, 5).join(", ")}
                        {shadeless.length > 5 && ` and ${shadeless.length - 5} more`}.
                      </p>
                    )}
                    {unused.length > 0 && (
                      <p role="status" className="photo-hint">
                        The list is longer than there are yarns. Left over: {unused.slice(0, 3).join(", ")}
                        {unused.length > 3 && ` and ${unused.length - 3} more`}.
                      </p>
                    )}
                    <button
                      type="button"
                      className="button strong photo-put"
                      disabled={ready.length === 0 || isWrong}
                      onClick={put}
                    >
                      Put {countOf(ready.length)} on the shelf
                    </button>
                  </div>
                </>
              )}
            </div>
          </div>
        </>
      )}
    </section>
  );
}

const countOf = (count: number): string => (count === 1 ? "1 yarn" : `${count} yarns`);
