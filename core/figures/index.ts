import { airFigures } from './air.ts';
import type { Figure } from './figure.ts';
import { floodFigures } from './flood.ts';
import { homesteadFigures } from './homestead.ts';
import { insuranceFigures } from './insurance.ts';
import { siteFigures } from './site.ts';
import { soilFigures } from './soil.ts';

export * from './air.ts';
export type { Figure, FigureArgs, FigureContext, FigureLimit } from './figure.ts';
export * from './flood.ts';
export * from './homestead.ts';
export * from './insurance.ts';
export * from './sizing.ts';
export * from './soil.ts';

/** Every figure a practice file may name as `figure.<id>`. */
export const figures: Readonly<Record<string, Figure>> = Object.fromEntries(
  [...airFigures, ...soilFigures, ...insuranceFigures, ...floodFigures, ...siteFigures, ...homesteadFigures].map(
    (figure) => [figure.id, figure],
  ),
);
