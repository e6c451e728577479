import type { ClassUseStore } from '../../storage/classUseStore.ts';
import type { OpenPart } from './sessionPart.ts';

/** What hangs on a class; there is nothing to stop. */
export const openClassUse: OpenPart<ClassUseStore> = async ({ store }) => store.classUse;
