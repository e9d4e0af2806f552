import { dropSetting, keepSetting, readSetting } from './settings.ts';

const keyOf = (id: string): string => `hourline-running:${id}`;

/**
 * Remembers in this browser that a workbook began to run, until it has. A browser that gives the frame no process of its own
 * hangs as a whole with a cell that never ends, and would again at each opening: a workbook that is still marked when it is
 * opened is shown without running.
 */
export const markRun = (id: string): void => keepSetting(keyOf(id), 'yes');

/** The run has ended, or was ended by somebody who knows. */
export const clearRun = (id: string): void => dropSetting(keyOf(id));

/** Whether a run of this workbook began in this browser and nothing has said that it ended. */
export const neverEnded = (id: string): boolean => readSetting(keyOf(id)) !== null;
