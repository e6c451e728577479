import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import { compareText as text } from '../../../core/text/compare.ts';
import { RESULTS_CAUTION } from '../../../core/text/statisticsCommands.ts';
import { EXPERIMENTAL_USE } from '../../../core/text/trial.ts';
import { isExperimental } from '../../../core/trial/experimentalUse.ts';
import blocks from '../../components/blocks.module.css';
import { Notice } from '../../components/Notice.tsx';
import { Page } from '../../components/Page.tsx';
import { PartNav } from '../../components/PartNav.tsx';
import { openComparison, type TrialComparison } from '../../session/comparison.ts';
import { useObservable, usePart } from '../../session/useSession.tsx';
import { ChecksPart } from './ChecksPart.tsx';
import styles from './CompareScreen.module.css';
import type { ComparedTrial } from './comparedTrial.ts';
import { DeclaredPart } from './DeclaredPart.tsx';
import { DeclareFirst } from './DeclareFirst.tsx';
import { PicturesPart } from './PicturesPart.tsx';
import { ProgrammePart } from './ProgrammePart.tsx';
import { ResultPart } from './ResultPart.tsx';
import { SeasonPart } from './SeasonPart.tsx';
import { TurfPart } from './TurfPart.tsx';
import { useDateShown } from './useDateShown.ts';

const PARTS = {
  result: ResultPart,
  season: SeasonPart,
  pictures: PicturesPart,
  turf: TurfPart,
  programme: ProgrammePart,
  checks: ChecksPart,
  declared: DeclaredPart,
} as const;
type PartName = keyof typeof PARTS;
const NAMES = Object.keys(PARTS) as PartName[];

/** Treatments compared: what was declared, the finding, its tables and pictures. */
export function CompareScreen({ params: { part } }: { params: { part?: string | undefined } }) {
  const comparison = usePart(openComparison);
  if (!comparison) return <Opening />;
  return <OpenedComparison comparison={comparison} part={NAMES.find((name) => name === part) ?? 'result'} />;
}

const Opening = () => (
  <p className={blocks.opening} role="status">
    {text.opening}
  </p>
);

function OpenedComparison({ comparison, part }: { comparison: TrialComparison; part: PartName }) {
  const state = useObservable(comparison.state);
  const { trial, ready, declared, declarations } = state;
  const [amending, setAmending] = useState(false);
  const shown = useDateShown();
  const declarationCount = declarations.length;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new declaration ends the amending
  useEffect(() => setAmending(false), [declarationCount]);

  if (!ready) return <Opening />;
  if (trial.state === 'none') {
    return (
      <Empty title={text.noTrial.title} sentence={text.noTrial.sentence} href="/plan" go={text.noTrial.go} />
    );
  }
  if (trial.state === 'unreadable') {
    return (
      <Page title={text.title}>
        <Notice kind="trouble">
          <p>{text.unreadable}</p>
        </Notice>
      </Page>
    );
  }
  const { plan } = trial;
  if (plan.plots.length === 0) {
    return (
      <Empty
        title={text.noTrial.title}
        sentence={text.noPlots.sentence}
        href="/plan/layout"
        go={text.noPlots.go}
      />
    );
  }
  const trouble = state.trouble !== null && (
    <Notice kind="trouble">
      <p>{text.failed(state.trouble)}</p>
    </Notice>
  );
  if (declared === null || amending) {
    return (
      <Page title={plan.trial.name}>
        {declared === null && declarations.length > 0 && (
          <Notice kind="trouble">
            <p>{text.declared.unreadable}</p>
          </Notice>
        )}
        <DeclareFirst
          comparison={comparison}
          trial={trial}
          before={declared}
          amends={declarations.length > 0}
          onCancel={amending ? () => setAmending(false) : null}
        />
        <Caution experimental={isExperimental(plan)} />
      </Page>
    );
  }
  const compared: ComparedTrial = { part: comparison, state, trial, plan, declared };
  const Part = PARTS[part];
  return (
    <Page
      title={plan.trial.name}
      aside={<p role="status">{state.working && state.trouble === null ? text.working : ''}</p>}
    >
      <PartNav
        label={text.parts}
        parts={NAMES.map((name) => ({
          href: name === 'result' ? '/compare' : `/compare/${name}`,
          words: text.part[name],
          current: name === part,
        }))}
      />
      {trouble}
      <Part compared={compared} shown={shown} onAmend={() => setAmending(true)} />
      <Caution experimental={isExperimental(plan)} />
    </Page>
  );
}

function Caution({ experimental }: { experimental: boolean }) {
  return (
    <p className={`${blocks.hint} ${styles.caution}`}>
      {RESULTS_CAUTION}
      {experimental && <strong> {EXPERIMENTAL_USE}</strong>}
    </p>
  );
}

interface EmptyProps {
  readonly title: string;
  readonly sentence: string;
  readonly href: string;
  readonly go: string;
}

function Empty({ title, sentence, href, go }: EmptyProps) {
  return (
    <Page title={title}>
      <p className={blocks.lead}>{sentence}</p>
      <p>
        <Link className={styles.link} href={href}>
          {go}
        </Link>
      </p>
    </Page>
  );
}
