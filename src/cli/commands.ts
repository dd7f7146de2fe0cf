/** Every command, in the order of her work. */
import type { Command } from "./command.ts";
import { amountsCommand } from "./commands/amounts.ts";
import { applyCommand } from "./commands/apply.ts";
import { checkCommand } from "./commands/check.ts";
import { clothCommand } from "./commands/cloth.ts";
import { compareCommand } from "./commands/compare.ts";
import { fabricCommand } from "./commands/fabric.ts";
import { measureCommand } from "./commands/measure.ts";
import { newCommand } from "./commands/new.ts";
import { readCommand } from "./commands/read.ts";
import { recolourCommand } from "./commands/recolour.ts";
import { schemaCommand } from "./commands/schema.ts";
import { shadeCommand } from "./commands/shade.ts";
import { shapeCommand } from "./commands/shape.ts";
import { sheetCommand } from "./commands/sheet.ts";
import { stashCommand } from "./commands/stash.ts";
import { swatchCommand } from "./commands/swatch.ts";

export const COMMANDS: readonly Command[] = [
  readCommand,
  stashCommand,
  shadeCommand,
  newCommand,
  checkCommand,
  recolourCommand,
  applyCommand,
  compareCommand,
  fabricCommand,
  clothCommand,
  measureCommand,
  shapeCommand,
  amountsCommand,
  swatchCommand,
  sheetCommand,
  schemaCommand,
];
