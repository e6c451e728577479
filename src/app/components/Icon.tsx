const PATHS = {
  previous: 'M15 5 8 12l7 7',
  next: 'm9 5 7 7-7 7',
  up: 'm5 15 7-7 7 7',
  down: 'm5 9 7 7 7-7',
  plus: 'M12 5v14M5 12h14',
  minus: 'M5 12h14',
  fit: 'M4 9V4h5M20 9V4h-5M4 15v5h5M20 15v5h-5',
  close: 'M6 6l12 12M18 6 6 18',
  back: 'M11 5 4 12l7 7M4 12h16',
  corners: 'M7 5.500 18 4l1.500 14.500L5 20ZM7 5.500v.01M18 4v.01M19.500 18.500v.01M5 20v.01',
  layers: 'M12 4 3.500 8.500 12 13l8.500-4.500ZM3.500 13 12 17.500l8.500-4.500',
  pattern: 'M4 4h16v16H4ZM4 12l8-8M4 20 20 4M12 20l8-8',
  camera: 'M4 8h4l1.500-2.500h5L16 8h4v11H4ZM12 16.500a3.250 3.250 0 1 0 0-6.500 3.250 3.250 0 0 0 0 6.500Z',
  more: 'M5 7h14M5 12h14M5 17h14',
  help: 'M9 9.500a3 3 0 1 1 4.500 2.600c-1 .6-1.500 1.100-1.500 2.400M12 18v.01',
  undo: 'M8 5 4 9l4 4M4 9h10a5.500 5.500 0 0 1 0 11H9',
  redo: 'm16 5 4 4-4 4M20 9H10a5.500 5.500 0 0 0 0 11h5',
  brush:
    'M20 4 10 14M10 14c-2-1-4.500.5-4.500 2.500 0 1.500-.5 2.500-2 3 3 1 7.500.500 8-3 .1-1-.5-2-1.500-2.500Z',
  eraser: 'M4 15 14 5l6 6-8 8H8ZM9 10l6 6M12 19h8',
  move: 'M12 3v18M3 12h18M12 3 9.500 5.500M12 3l2.500 2.500M12 21l-2.500-2.500M12 21l2.500-2.500M3 12l2.500-2.500M3 12l2.500 2.500M21 12l-2.500-2.500M21 12l-2.500 2.500',
  outline: 'M5 17 3.500 9 11 4l9 4-2 9-7 3ZM5 17v.01M11 4v.01M20 8v.01',
  fill: 'm11 4-7 7 6 6 8-8-6-6M4 11h13M19 15c-1.500 2-2 3-2 3.800a2 2 0 0 0 4 0c0-.8-.5-1.800-2-3.800Z',
  likeness: 'M12 3v4M12 17v4M3 12h4M17 12h4M12 9a3 3 0 1 0 0 6 3 3 0 0 0 0-6Z',
  beside: 'M4 5h16v14H4ZM12 5v14M7 9v.01M7 13v.01M9.500 11v.01',
  magnifier: 'M10.500 4a6.500 6.500 0 1 0 0 13 6.500 6.500 0 0 0 0-13ZM15.500 15.500 20 20',
  edit: 'M4 20l1-5L16 4l4 4L9 19ZM13.500 6.500l4 4',
  trouble: 'M12 4 2.500 20h19ZM12 10v5M12 17.500v.01',
  good: 'm4.500 12.500 5 5 10-11',
  card: 'M4 6h16v12H4ZM4 6l16 12',
  straighten: 'M4 4h16v16H4ZM4 12h16M12 4v16',
  dates: 'M4 5h11v11H4ZM9 20h11V9',
} as const;

export type IconName = keyof typeof PATHS;

/** A line drawing beside or instead of words; whatever shows it alone carries a label of its own. */
export function Icon({ name, size = 20 }: { name: IconName; size?: number }) {
  return (
    <svg
      width={size}
      height={size}
      viewBox="0 0 24 24"
      fill="none"
      stroke="currentColor"
      strokeWidth="2"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
      focusable="false"
    >
      <path d={PATHS[name]} />
    </svg>
  );
}
