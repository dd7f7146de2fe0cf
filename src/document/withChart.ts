/** A project in which one chart has become another: what every edit of a single chart does. */
import type { Chart } from "../chart/chart.ts";
import type { Project } from "./project.ts";

export const withChart = (project: Project, id: string, change: (chart: Chart) => Chart): Project => ({
  ...project,
  pattern: {
    ...project.pattern,
    charts: project.pattern.charts.map((chart) => (chart.id === id ? change(chart) : chart)),
  },
});
