import { catalogue } from './catalogue.ts';
import { formatCount, formatDay, formatQuantity } from './format.ts';

const photos = (count: number) => formatQuantity(count, 'photo', 'photos');
const place = (plot: string, number: number | null) =>
  number === null ? `plot ${plot}` : `plot ${plot}, place ${formatCount(number)}`;
const metres = (value: number) => `${value.toFixed(2)} m`;

/** What the field mode says: photographing plot by plot with a phone. */
export const fieldText = catalogue('fieldText', {
  title: 'In the field',
  opening: 'Opening the field day…',

  days: {
    title: 'Which rating date?',
    intro:
      'Photos taken here go to the plot on screen and to this date. Where you stand is kept: close the page whenever you like.',
    noTrial: 'There is no trial yet. The field mode walks its plots: set it up first.',
    noPlots: 'The trial has no plots yet. Draw or read its layout first.',
    noDates: 'The trial has no rating dates with a day yet. Enter them first.',
    toPlan: 'Open the plan',
    day: (date: string) => formatDay(date),
    done: (done: number, of: number, skipped: number) =>
      `${formatCount(done)} of ${formatCount(of)} photographed${skipped > 0 ? `, ${formatCount(skipped)} left out` : ''}`,
    today: 'today',
    begun: 'begun on this phone',
    unknown: (date: string) => `The trial has no rating date "${date}". Choose one of these.`,
  },

  start: {
    title: (date: string) => `Before you start, ${formatDay(date)}`,
    otherDay: (planned: string, today: string) =>
      `This rating is planned for ${formatDay(planned)}; today is ${formatDay(today)}.`,
    rateToday: 'It is rated today',
    movedToToday: 'Rated on another day than planned',
    name: 'Your name or initials',
    nameHint: 'Stands beside what you decide here. It proves nothing about who typed it.',
    nameAsked: 'Enter your name or initials first.',
    conditions: 'Conditions of the day',
    conditionsMissing: 'Days since mowing, dew, sky and growth stage are not noted yet.',
    conditionsThere: 'Noted.',
    conditionsNote: 'Note them',
    conditionsChange: 'Change',
    why: 'Noted in the field',
    go: (plot: string) => `Go to plot ${plot}`,
  },

  reEntry: {
    title: 'Before you step on the plots',
    short: { passed: 'Re-entry time has passed.', 'not-passed': 'Keep off.', unknown: 'Re-entry not known.' },
    'not-passed': 'By the re-entry time you entered, nobody may step on the plots yet.',
    unknown: 'Nobody has entered how long people have to keep off. Read the label before you step on a plot.',
    caution:
      'The product label and local regulations decide. Early entry is for people who are allowed to, with the protective equipment the label names.',
    leave: 'Stay off',
    confirm: 'I have read the label and go on',
    kept: 'That you went on is kept with your name and the time.',
  },

  plot: (plot: string) => `Plot ${plot}`,
  place: (number: number, of: number) => `place ${formatCount(number)} of ${formatCount(of)}`,
  lies: (row: number, column: number) => `row ${formatCount(row)}, column ${formatCount(column)}`,
  progress: (done: number, of: number) => `${formatCount(done)} of ${formatCount(of)}`,
  progressLabel: 'Photographed',
  map: (plot: string, row: number, rows: number, column: number, columns: number) =>
    `Map: you are at plot ${plot}, row ${formatCount(row)} of ${formatCount(rows)} from the front, column ${formatCount(column)} of ${formatCount(columns)} from the left. Choose another plot.`,
  mapHint: 'You are here',
  front: 'front',
  frame: {
    title: 'Place of the frame',
    from: (corner: string) => `From the ${corner} corner`,
    across: (across: number) => `${metres(across)} across`,
    along: (along: number) => `${metres(along)} along`,
    picture: (corner: string, across: number, along: number) =>
      `The frame's corner lies ${metres(across)} across and ${metres(along)} along from the ${corner} corner of the plot.`,
    mark: (corner: string) => `Mark of the frame: ${corner}`,
    none: 'Frame anywhere in the plot.',
  },
  guide: (date: string) => `Here on ${formatDay(date, 'short')}: place the frame the same way`,
  guideAlt: (plot: string, date: string) => `Plot ${plot} on ${formatDay(date)}`,
  noGuide: 'No earlier photo of this place.',

  camera: 'Take the photo',
  cameraOf: (plot: string, number: number | null) => `Take the photo of ${place(plot, number)}`,
  retake: 'Take again',
  choose: 'It is on the phone: choose it',
  storing: 'Storing the photo…',
  missed: (plot: string, number: number | null) =>
    `The photo of ${place(plot, number)} did not arrive. Take it again.`,
  samePhoto: (name: string, plot: string | null, date: string | null) =>
    plot === null
      ? `${name} is here already, without a plot. Take another photo.`
      : `${name} is here already, at plot ${plot}${date === null ? '' : ` of ${formatDay(date, 'short')}`}. Take another photo.`,
  refused: (reason: string) => `The photo was not taken in: ${reason} Take it again.`,
  photoOf: (plot: string) => `The photo of plot ${plot}`,
  earlier: (count: number) => `${photos(count)} of this place replaced`,
  useEarlier: 'Use the earlier photo again',
  replacedReason: 'Another photo was taken in its place',
  earlierReason: 'The earlier photo was chosen again',

  actions: 'What to do here',
  nextPlot: (plot: string) => `Next: ${plot}`,
  back: 'Previous plot',
  skip: 'Leave out',
  skipped: (reason: string) => `Left out: ${reason}`,
  skipTitle: (plot: string, number: number | null) => `Leave out ${place(plot, number)}`,
  skipHint: 'The reason is kept with the trial and stands in its archive.',
  skipReason: 'Reason',
  skipReasons: [
    'standing water',
    'plot damaged or disturbed',
    'people or machines on the plot',
    're-entry time not passed',
    'no light left',
  ],
  skipDo: 'Leave out',
  cancel: 'Cancel',
  finish: 'To the end of the round',

  list: {
    title: 'Plots in walking order',
    state: { taken: 'photo there', retake: 'take again', skipped: 'left out', open: 'to do' },
    here: 'you are here',
    item: (plot: string, number: number | null, state: string) =>
      `${number === null ? plot : `${plot}, place ${formatCount(number)}`}: ${state}`,
  },

  late: (plot: string, number: number | null) => `Take ${place(plot, number)} again`,
  hand: {
    left: 'Left hand',
    right: 'Right hand',
    toLeft: 'For the left hand',
    toRight: 'For the right hand',
  },
  more: 'More',
  settings: {
    title: 'Field mode',
    hand: 'Hand that holds the phone',
    screen: 'Brightness of the screen',
    awake: 'The screen stays on while this page is in front.',
    notAwake: 'This browser lets the screen go dark; set the phone to keep it on longer.',
    conditions: 'Conditions of the day',
    otherDate: 'Another rating date',
    leave: 'Leave the field mode',
  },

  end: {
    title: 'End of the round',
    all: (count: number) => `All ${photos(count)} are there.`,
    done: (done: number, of: number) => `${formatCount(done)} of ${formatCount(of)} photographed.`,
    open: (count: number) => `${formatQuantity(count, 'place is', 'places are')} still to do.`,
    goOpen: (plot: string) => `To plot ${plot}`,
    retake: 'To be taken again',
    skipped: 'Left out',
    leave: 'Done: show the photos',
  },
} as const);

/** How many photos would be lost with this device. */
export const onlyHereText = catalogue('onlyHereText', {
  label: 'Photos on this device',
  count: (count: number, onPhone: boolean) =>
    `${photos(count)} ${count === 1 ? 'exists' : 'exist'} only on this ${onPhone ? 'phone' : 'device'}.`,
  none: 'Every photo has been saved in an archive.',
  save: 'Save an archive',
  saveDate: (date: string) => `Save ${formatDay(date, 'short')}`,
  saving: (done: number, of: number) => `Saving ${formatCount(done)} of ${photos(of)}…`,
  saved: (count: number) => `${photos(count)} saved. Copy the file to another device.`,
  cancelled: 'Cancelled; nothing was saved.',
  failed: (reason: string) => `The archive could not be written: ${reason}`,
  fileName: 'archive',
  description: 'Archive of a trial',
} as const);
