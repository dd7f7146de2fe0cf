/** All her yarns for one chart colour, nearest in lightness first: filtered by typing, walked by arrow keys, taken by Enter. */
import { useEffect, useRef, type ReactNode } from "react";
import { Autocomplete } from "react-aria-components/Autocomplete";
import { Button } from "react-aria-components/Button";
import { Dialog } from "react-aria-components/Dialog";
import { Input } from "react-aria-components/Input";
import { Label } from "react-aria-components/Label";
import { ListBox, ListBoxItem } from "react-aria-components/ListBox";
import { Popover } from "react-aria-components/Popover";
import { SearchField } from "react-aria-components/SearchField";
import type { LadderRung } from "../worker/api.ts";
import type { YarnDot } from "./LadderPanel.tsx";

interface YarnPickerProps {
  readonly line: LadderRung;
  readonly lines: readonly LadderRung[];
  readonly yarns: readonly YarnDot[];
  readonly anchor: HTMLElement | null;
  /** The yarn under her hand or her keys, shown on the fabric until she moves on. */
  readonly onTry: (yarn: string | null) => void;
  readonly onChoose: (yarn: string) => void;
  readonly onClose: () => void;
}

export function YarnPicker({ line, lines, yarns, anchor, onTry, onChoose, onClose }: YarnPickerProps): ReactNode {
  if (!anchor) return null;
  const sorted = [...yarns].sort(
    (a, b) => Math.abs(a.L - line.was.L) - Math.abs(b.L - line.was.L) || a.name.localeCompare(b.name),
  );
  const contains = (text: string, typed: string) => text.toLowerCase().includes(typed.trim().toLowerCase());
  const narrow = window.innerWidth < 700;
  // Beside the whole ladder, so that the rails stay in view while she chooses.
  const beside = (anchor.closest(".panel")?.getBoundingClientRect().right ?? 0) - anchor.getBoundingClientRect().right;
  return (
    <Popover
      triggerRef={{ current: anchor }}
      isOpen
      placement={narrow ? "bottom left" : "right"}
      offset={narrow ? 6 : Math.max(0, beside) + 6}
      className="popover"
      onOpenChange={(open) => !open && onClose()}
    >
      <Dialog className="yarn-picker" aria-label={`A yarn for ${line.colour}`}>
        <p className="yarn-picker-head">
          <span className="swatch" style={{ background: line.was.hex }} />
          <span>
            <strong>
              {line.colour}, {line.name}
            </strong>
            <br />
            {line.was.class} in the pattern, L* {Math.round(line.was.L)}
          </span>
          <Button className="tool" aria-label="Close" onPress={onClose}>
            <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
              <path d="M3 3 13 13M13 3 3 13" stroke="currentColor" strokeWidth="1.7" strokeLinecap="round" />
            </svg>
          </Button>
        </p>
        <Autocomplete filter={contains}>
          <SearchField autoFocus className="yarn-search">
            <Label>Your yarns, nearest in lightness first</Label>
            {/* A text field that rules a list is a combobox to a screen reader, whatever else it is. */}
            <Input role="combobox" aria-expanded placeholder="name of a yarn" className="field" />
          </SearchField>
          <ListBox
            aria-label={`Yarns for ${line.colour}`}
            className="yarn-list"
            selectionMode="single"
            disallowEmptySelection
            selectedKeys={line.yarn ? [line.yarn] : []}
            items={sorted.map((yarn) => ({ ...yarn, textValue: yarn.name }))}
            dependencies={[line]}
            renderEmptyState={() => (
              <p className="empty">{yarns.length === 0 ? "There are no yarns yet." : "No yarn has that name."}</p>
            )}
            onSelectionChange={(keys) => {
              const [key] = keys === "all" ? [] : [...keys];
              if (key !== undefined) onChoose(String(key));
              onClose();
            }}
          >
            {(yarn) => (
              <ListBoxItem id={yarn.id} textValue={yarn.name} className="yarn-item">
                {({ isFocused, isHovered }) => (
                  <>
                    <Glimpse yarn={yarn.id} wanted={isHovered || isFocused} onTry={onTry} />
                    <span className="swatch round" style={{ background: yarn.hex }} />
                    <span className="yarn-item-name">{yarn.name}</span>{" "}
                    <span className="yarn-item-more">{apartWords(yarn, line, lines)}</span>
                  </>
                )}
              </ListBoxItem>
            )}
          </ListBox>
        </Autocomplete>
      </Dialog>
    </Popover>
  );
}

/** Fast fingers pass many yarns; only one that is rested on is shown. */
const REST_MS = 120;

function Glimpse({
  yarn,
  wanted,
  onTry,
}: {
  yarn: string;
  wanted: boolean;
  onTry: (yarn: string | null) => void;
}): ReactNode {
  const latest = useRef(onTry);
  latest.current = onTry;
  useEffect(() => {
    if (!wanted) return;
    const timer = setTimeout(() => latest.current(yarn), REST_MS);
    return () => clearTimeout(timer);
  }, [wanted, yarn]);
  return null;
}

function apartWords(yarn: YarnDot, line: LadderRung, lines: readonly LadderRung[]): string {
  const apart = Math.round(yarn.L - line.was.L);
  const words = apart === 0 ? "as light" : `${Math.abs(apart)} ${apart > 0 ? "lighter" : "darker"}`;
  const users = lines.filter((one) => one.yarn === yarn.id).map(({ colour }) => colour);
  if (users.includes(line.colour)) return `${words} · here now`;
  return users.length > 0 ? `${words} · in ${users.join(", ")}` : words;
}
