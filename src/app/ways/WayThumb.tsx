/** A way as a small true fabric in the list. */
import { useId, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import type { Way } from "../worker/api.ts";
import { pictureJobs } from "../worker/client.ts";
import { SmallFabric } from "./SmallFabric.tsx";

/** CSS pixels: the whole height of most charts at two pixels a stitch. */
const WIDTH = 104;
const HEIGHT = 232;

interface WayThumbProps {
  readonly project: Project;
  readonly way: Way;
  /** The colourway that was asked about. */
  readonly from: string;
}

export function WayThumb({ project, way, from }: WayThumbProps): ReactNode {
  const id = useId();
  return (
    <SmallFabric
      of={`${id} ${JSON.stringify(way.yarns)}`}
      from={() => pictureJobs().applyWay(project, way, { name: way.name, from })}
      width={WIDTH}
      height={HEIGHT}
    />
  );
}
