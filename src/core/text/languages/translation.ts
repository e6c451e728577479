/** All files with words; a new one is added here. */
type Catalogues = typeof import('../app.ts') &
  typeof import('../archive.ts') &
  typeof import('../area.ts') &
  typeof import('../charts.ts') &
  typeof import('../classes.ts') &
  typeof import('../compare.ts') &
  typeof import('../correct.ts') &
  typeof import('../defaultClassNames.ts') &
  typeof import('../field.ts') &
  typeof import('../finding.ts') &
  typeof import('../gapRule.ts') &
  typeof import('../mask.ts') &
  typeof import('../offline.ts') &
  typeof import('../photoProblems.ts') &
  typeof import('../plan.ts') &
  typeof import('../points.ts') &
  typeof import('../pointsScreen.ts') &
  typeof import('../quality.ts') &
  typeof import('../report.ts') &
  typeof import('../reportMethods.ts') &
  typeof import('../review.ts') &
  typeof import('../sampleTrial.ts') &
  typeof import('../statistics.ts') &
  typeof import('../statisticsCommands.ts') &
  typeof import('../teach.ts') &
  typeof import('../teaching.ts') &
  typeof import('../trial.ts');

/** The entries of an English catalogue as another language may fill them: any may be left out, none added. */
type Words<T> = T extends string
  ? string
  : T extends (...values: infer Values) => infer Said
    ? (...values: Values) => Whole<Said>
    : T extends readonly unknown[]
      ? Whole<T>
      : { readonly [Key in keyof T]?: Words<T[Key]> };

/** What a function returns, and lists: whole, with any words. */
type Whole<T> = T extends string
  ? string
  : T extends object
    ? { readonly [Key in keyof T]: Whole<T[Key]> }
    : T;

/** Another language, by the names under which the English words are exported. What is left out stays English. */
export type Translation = { readonly [Name in keyof Catalogues]?: Words<Catalogues[Name]> };
