import { createContext, type ReactNode, use } from 'react';

/** Level of the report's title: 1 in a file of its own, 2 below the heading of the screen. */
const TitleLevel = createContext<1 | 2>(1);

export const TitleLevelProvider = ({ level, children }: { level: 1 | 2; children: ReactNode }) => (
  <TitleLevel value={level}>{children}</TitleLevel>
);

interface HeadingProps {
  /** 0 is the title itself. */
  readonly below: 0 | 1 | 2;
  readonly className?: string;
  readonly children: ReactNode;
}

/** A heading so many levels below the title. */
export function Heading({ below, className, children }: HeadingProps) {
  const Level = `h${use(TitleLevel) + below}` as 'h1' | 'h2' | 'h3' | 'h4';
  return <Level className={[`paper-h${below}`, className].filter(Boolean).join(' ')}>{children}</Level>;
}

/** A section with its heading. */
export function Section({
  title,
  className,
  children,
}: {
  title: string;
  className?: string;
  children: ReactNode;
}) {
  return (
    <section className={['paper-section', className].filter(Boolean).join(' ')}>
      <Heading below={1}>{title}</Heading>
      {children}
    </section>
  );
}

/** A part of a section. */
export function Part({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div className="paper-part">
      <Heading below={2}>{title}</Heading>
      {children}
    </div>
  );
}
