import { app } from './app.ts';
import { photoProblemText } from './photoProblems.ts';

/** Everything a person is told, in English. A second language is an object of this shape. */
export const english = { app, photoProblemText };
