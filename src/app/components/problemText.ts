import { app } from '../../core/text/app.ts';
import { photoProblemText } from '../../core/text/photoProblems.ts';
import type { AddedFile, PhotoSummary } from '../session/session.ts';

type AddProblem = Extract<AddedFile, { state: 'refused' }>['problem'];
type FigureProblem = NonNullable<PhotoSummary['problem']>;

/** What is wrong with a file or photo and what helps, without its name. */
export function problemText(problem: AddProblem | FigureProblem): string {
  const { problems } = app;
  switch (problem.code) {
    case 'worker-died':
      return problems[problem.code](problem.attempts);
    case 'unexpected':
      return problems[problem.code](problem.name, problem.message);
    case 'photo-bytes-missing':
    case 'storage-full':
      return problems[problem.code];
    case 'file-unreadable':
    case 'storage-failed':
      return problems[problem.code](problem.detail);
    default:
      return photoProblemText(problem);
  }
}
