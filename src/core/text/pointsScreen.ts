import type { EqualRatesTest } from '../cover/equalErrorRates.ts';
import type { SamplingDesign } from '../point-grid/samplingDesign.ts';
import type { Interval } from '../statistics/proportions/proportionInterval.ts';
import { catalogue } from './catalogue.ts';
import { formatCount, formatDay, formatLength, formatList, formatPercent, formatQuantity } from './format.ts';

const photos = (count: number) => formatQuantity(count, 'photo', 'photos');
const points = (count: number) => formatQuantity(count, 'point', 'points');
const day = (date: string | null) => (date === null ? 'Photos without a date' : formatDay(date, 'short'));

/** "8.1 to 17 %". */
export const intervalText = catalogue(
  'intervalText',
  ({ low, high }: Interval): string =>
    `${formatPercent(Math.max(0, low))} to ${formatPercent(Math.min(1, high))} %`,
);

/** Percentage points with their sign, one decimal. */
export const signedPoints = (value: number): string => {
  const rounded = Math.round(value * 10) / 10;
  return `${rounded > 0 ? '+' : rounded < 0 ? '−' : ''}${formatLength(Math.abs(rounded))}`;
};

/** What the Points screen says. */
export const pointsText = catalogue('pointsText', {
  title: 'Points',
  opening: 'Opening the counts…',
  parts: 'Parts of the point counts',
  part: {
    count: 'Count',
    plan: 'Lay points',
    results: 'Results',
    observers: 'Observers',
    turf: 'On the turf',
    training: 'Training',
  },
  day,
  date: 'Rating date',
  observer: 'Observer',
  observerHint: 'Name or initials. Every observer has an order of his or her own.',
  noObserver: 'Type who is counting first.',
  photoOnly:
    'Sampling error is all that these intervals know. An observer who takes one class for another is wrong at every point; the training shows it.',

  count: {
    none: 'No points are laid on this date yet.',
    noneHint:
      'A count at points is the independent check on the masks: you say what lies under a mark, the share of hits is the cover, and its error is known.',
    toPlan: 'Lay points',
    plan: (count: number, each: number, inAll: number) =>
      `${formatCount(each)} on each of ${photos(count)}` +
      (inAll === each * count ? '.' : `, ${formatCount(inAll)} of them on measured ground.`),
    sampled: (drawnFrom: number, left: readonly string[]) =>
      `A random sample within every treatment, from ${photos(drawnFrom)}.` +
      (left.length > 0 ? ` Left out, and not spoken for: ${formatList(left)}.` : ''),
    withStrokes: (count: number) => `${formatCount(count)} with painted samples`,
    inQueue: (count: number) => `${formatCount(count)} doubted or reviewed`,
    everyPhoto: 'Every photo of the date.',
    seed: (seed: number) => `Seed ${seed}.`,
    start: 'Call points',
    goOn: 'Go on calling',
    results: 'See the results',
    progress: (done: number, all: number) => `${formatCount(done)} of ${points(all)}`,
    byWhom: 'Progress by observer',
    nobody: 'Nobody has called a point yet.',
    finished: 'All points are called.',
    outside: (pointCount: number, photoCount: number) =>
      `${points(pointCount)} on ${photos(photoCount)} ${pointCount === 1 ? 'lies' : 'lie'} outside the measured ground, since a frame or an ignored area was changed. ` +
      'What was called there is kept and not counted.',
    replace: 'Draw new points for them',
    otherRule: (count: number) =>
      `${formatQuantity(count, 'call was', 'calls were')} made under another rule for small gaps than the trial has now. ` +
      'They answer another question: they are kept and not counted. Call these points again.',
    remove: 'Take this plan back',
    removeHint: 'Possible until somebody has called a point of it.',
    removed: 'The plan was taken back.',
  },

  plan: {
    title: 'Lay points on photos',
    dates: 'Rating dates',
    photosOf: (count: number) => photos(count),
    design: 'Design',
    designs: {
      'jittered-grid': 'Random point in each cell',
      'regular-grid': 'Grid with a random start',
      'simple-random': 'Random points',
      'transect-lines': 'Lines at equal distances',
    } satisfies Record<SamplingDesign['kind'], string>,
    designHint: {
      'jittered-grid': 'Spreads the points and cannot keep step with mowing stripes or core holes.',
      'regular-grid': 'Spreads best, but a pattern in the turf that keeps step with it misleads.',
      'simple-random': 'Needs no assumption at all; some points will fall close together.',
      'transect-lines': 'Points of a line hang together, so the error is reckoned from line to line.',
    } satisfies Record<SamplingDesign['kind'], string>,
    columns: 'Columns',
    rows: 'Rows',
    points: 'Points',
    lines: 'Lines',
    perLine: 'Points on a line',
    direction: 'Lines run',
    directions: { across: 'across', down: 'down' },
    which: 'Photos',
    drawn: 'A random sample in each treatment',
    drawnNoTrial: 'A random sample of each date',
    drawnHint:
      'To check the masks. Photos with painted samples are left out, for they look better than the others; so are those that are doubted or were reviewed, for they look worse and are mended first.',
    every: 'Every photo',
    everyHint: 'To compare treatments by points alone, or by adjusted cover where the mask errs unlike.',
    perTreatment: 'Photos of each treatment',
    perDate: 'Photos of each date',
    seed: 'Seed',
    newSeed: 'Another seed',
    seedHint: 'The same seed draws the same photos and points again.',
    lay: 'Lay these points',
    nothing: 'No photo would get points.',
    noDates: 'Choose a rating date.',
    laid: (count: number) => `Points are laid on ${photos(count)}.`,
    already: (count: number) =>
      `${photos(count)} already ${count === 1 ? 'has' : 'have'} points and ${count === 1 ? 'keeps' : 'keep'} them.`,
    unready: (count: number) => `${photos(count)} left aside: not measured yet, or of no plot of the trial.`,
    unplaced: (count: number) => `On ${photos(count)} no point fell on measured ground.`,
    ofTreatment: (treatment: string, count: number) => `Treatment ${treatment}: ${photos(count)}.`,
    ofDate: (count: number, from: number, left: readonly string[]) =>
      (count === from ? `${photos(count)}.` : `${photos(count)} drawn from ${formatCount(from)}.`) +
      (left.length > 0 ? ` Left out, and not spoken for: ${formatList(left)}.` : ''),
    spread: (className: string) => `From the counts so far, ${className}:`,
    planner: 'What it can show',
    expected: 'Cover you expect',
    confidence: 'At 95 % confidence, for the ground in one frame:',
    halfWidth: (half: number) => `± ${formatLength(100 * half)} percentage points`,
    halfWidthLabel: 'Half-width of the interval',
    smallest: 'Smallest cover that is noticed',
    smallestValue: (fraction: number) => `${formatLength(100 * fraction)} %`,
    smallestHint: 'Of less, perhaps no point falls on it at all.',
    needed: (count: number, half: number) =>
      `For ± ${formatLength(half)} percentage points, about ${points(count)} are needed.`,
    calls: 'Calls in all',
    callsValue: (count: number, minutes: number) =>
      `${formatCount(count)}, about ${formatQuantity(Math.max(1, Math.round(minutes)), 'minute', 'minutes')} at one call a second`,
    plant: 'Diameter of a plant or tuft',
    spacing: 'Distance of points',
    noScale: 'The frames have no size, so distances cannot be told. Give it on the Cover screen.',
    frames:
      'More frames in a plot usually buy more than more points in a frame: points of one frame stand in the same patches.',
    seedProblem: 'A whole number from 0 to 4294967295.',
  },

  calling: {
    label: 'Calling points',
    photo: (index: number, of: number) => `Photo ${index} of ${of}`,
    point: (index: number, of: number) => `Point ${index} of ${of}`,
    leave: 'Leave',
    pause: 'Pause',
    resume: 'Go on',
    paused: 'Paused',
    pausedHint: 'Everything called so far is stored. You can close the page and go on another day.',
    pausedTraining: 'Training is kept once it is finished.',
    cannotTell: 'Cannot tell',
    back: 'Back',
    forward: 'Forward',
    classes: 'What lies under the mark?',
    stage: (index: number, of: number) =>
      `The photo round point ${index} of ${of}, the point in the middle of the ring`,
    closer: 'Closer',
    wider: 'Wider',
    photoDone: 'This photo is done',
    photoDoneHint: (left: number) => (left === 0 ? '' : `${photos(left)} to go.`),
    next: 'Next photo',
    allDone: 'All photos of this date are counted',
    allDoneHint:
      'A second observer on the same points shows how far another person would call them otherwise.',
    toResults: 'See the results',
    loading: 'Opening the photo…',
    failed: 'This photo cannot be shown. Its points stay without a call.',
    skip: 'Next photo',
    finish: 'Finish',
    unstored: (count: number) =>
      `${formatQuantity(count, 'call is', 'calls are')} not stored yet. Free some space on this device; do not close this page.`,
    storeAgain: 'Store again',
    key: (key: string) => `Key ${key}`,
    callAs: (name: string) => `Call it ${name}`,
    nothing: 'There are no points to call on this date. Lay some, or choose another date under Count.',
  },

  results: {
    none: 'Nothing is counted on this date yet. Lay points, call them under Count, and what follows from them stands here.',
    observers: (names: readonly string[]) => formatList(names),
    estimates: 'Cover by points',
    level: 'What the figure is about',
    levels: { frame: 'Frames', plot: 'Plots', treatment: 'Treatments' },
    target: {
      frame: 'Each interval is about the ground in one frame, not about the plot around it.',
      plot: 'Each interval is about a whole plot. Frames, not points, are its independent pieces.',
      treatment: "Each interval is about the mean of a treatment's plots on this site and date.",
    },
    plotWord: 'Plot',
    photoWord: 'Photo',
    photosWord: 'Photos',
    treatmentWord: 'Treatment',
    noPlot: 'no plot',
    pointsWord: 'Points',
    indeterminate: 'Cannot tell',
    unlabelled: (count: number) => `${points(count)} to go`,
    simultaneous: (interval: Interval) => `all classes together ${intervalText(interval)}`,
    ifIndeterminate: (interval: Interval) => `undecided ${intervalText(interval)}`,
    noInterval: 'no interval',
    all: 'Intervals for all classes together',
    allHint: 'Goodman’s intervals: with 95 % confidence all classes at once lie within them.',
    unfinished: (count: number) =>
      `${photos(count)} not finished: points still without a call may fall otherwise.`,
    remarks: (names: readonly string[], sentence: string) => `${formatList(names)}: ${sentence}`,

    mask: 'The mask at these points',
    maskHint:
      'The automatic masks against what was seen. Points laid over the ground speak for the whole photo.',
    noMask:
      'No photo with points has a mask of the present classes and rule for small gaps. It is being made, or the photo has to be measured again.',
    withStrokes: (count: number) =>
      `${photos(count)} with painted samples left out: a model looks better there than it is elsewhere.`,
    matrix: 'Mask class by observed class, points',
    maskSays: 'Mask says',
    seen: 'Observed',
    users: 'User’s accuracy',
    usersHint: 'of what the mask calls so, is so',
    producers: 'Producer’s accuracy',
    producersHint: 'of what is so, the mask calls so',
    overall: (share: number) => `${formatPercent(share)} % of the ground is called right.`,
    kappa: (kappa: number | null, error: number | null) =>
      kappa === null
        ? 'Kappa cannot be computed: one class only.'
        : `Kappa ${kappa.toFixed(2)}${error === null ? '' : ` (standard error ${error.toFixed(2)})`}: agreement beyond what chance gives.`,
    pooledAccuracy: 'Accuracies of all photos together, weighted by the mean shares of the masks.',
    agreement: 'Mask and points across photos',
    agreementHint: 'Percentage points, mask less points.',
    klass: 'Class',
    meanDifference: 'Mean difference',
    limits: 'Limits of agreement',
    lin: 'Lin’s concordance',
    pointNoise: 'Points alone explain',
    pointNoiseHint: 'The spread that the sampling error of the points alone gives.',
    drawnClass: 'Class in the figure',
    agreementOf: (name: string) => `Mask less points, ${name}`,
    methodsCompared: ['Mask', 'points'] as const,
    tooFewPhotos: 'Two photos or more are needed.',

    adjusted: 'Adjusted cover',
    adjustedHint: 'The cover of the mask, corrected for the errors that the points found in it.',
    ownPoints: 'Every photo from its own points.',
    pooled: 'Every photo from the error rates of all points together, solved for the cover.',
    maskShare: 'Mask',
    pointsShare: 'Points',
    adjustedShare: 'Adjusted',
    refusals: (count: number) => `${photos(count)} cannot be adjusted`,
    collapsed: (names: readonly string[]) =>
      `Too few points on ${formatList(names)}, a small part of the mask: counted with the largest class.`,
    cut: 'The solution fell outside 0 to 100 % and was cut.',
    byTreatment: 'Treatment means',
    testTitle: 'Does the mask err alike in all treatments?',
    test: ({ smallestP, photos: count, treatments }: EqualRatesTest) =>
      smallestP === null
        ? `Not to be told from ${photos(count)} in ${formatQuantity(treatments, 'treatment', 'treatments')}.`
        : `Smallest p of the classes ${smallestP.toFixed(3)}, from ${photos(count)} in ${formatQuantity(treatments, 'treatment', 'treatments')}; counted as different below 0.25.`,

    method: 'Figures for the comparison',
    methodHint:
      'A comparison uses one method for all its plots. It is declared on the Compare screen, before the treatments show; all methods stay stored.',
    methods: {
      automatic: 'Automatic mask',
      corrected: 'Mask corrected by hand',
      points: 'Points',
      adjusted: 'Adjusted cover',
    },
    methodWord: 'Method',
    plotsWith: 'Plots of this date with a figure',
    has: (have: number, of: number) =>
      have === of
        ? `all ${formatQuantity(of, 'plot', 'plots')}`
        : `${formatCount(have)} of ${formatQuantity(of, 'plot', 'plots')}`,
    declared: (method: string, by: string, at: string) =>
      `Declared: ${method}, by ${by} on ${formatDay(at.slice(0, 10), 'short')}.`,
    declaredOther: (by: string, at: string) =>
      `A rated variable was declared, by ${by} on ${formatDay(at.slice(0, 10), 'short')}.`,
    notDeclared:
      'Nothing is declared yet, so treatments stand here under codes: who knows them may choose the method that flatters one.',
    toCompare: 'Go to Compare',
    coded: (code: string) => `Code ${code}`,
    numbered: (treatment: string) => `Treatment ${treatment}`,
    keep: 'Keep these figures',
    keepHint:
      'Stores the figures by points and the adjusted ones of this date, by this observer, for the comparison.',
    kept: (byPoints: number, adjusted: number) =>
      `Kept: ${formatQuantity(byPoints, 'figure', 'figures')} by points, ${formatCount(adjusted)} adjusted.`,
    saveCounts: 'Save the counts (JSON)',
    saveCountsHint: 'Mask class against observed class, for the command line: swardbook adjust.',
    noTrial: 'Without a trial there are no treatments to compare: plan it, and photos find their plots.',
  },

  observers: {
    title: 'Two observers on the same points',
    need: 'Two observers are needed who called the same points. Have another person call this date.',
    first: 'First',
    second: 'Second',
    matrix: 'Points by what each of them said',
    judged: (both: number, undecided: number) =>
      `${points(both)} judged by both` +
      (undecided > 0 ? `, ${formatCount(undecided)} where one could not tell.` : '.'),
    bias: 'First less second',
    hint: 'Percentage points of cover, mean over photos, and the limits within which 95 % of photos lie.',
  },

  turf: {
    title: 'Counted on the turf',
    hint: 'Points called in the frame itself, by a grid of strings or a pin frame, and typed in here. They say nothing about a mask.',
    plot: 'Plot',
    place: 'Place in the plot',
    placeHint: 'Left empty where there is but one.',
    design: 'How the points lay',
    designExample: 'e.g. grid of strings, 10 x 10',
    hits: (name: string) => `Points on ${name}`,
    cannotTell: 'Points without a verdict',
    add: 'Keep this count',
    remove: (count: string) => `Take back ${count}`,
    none: 'No counts from the turf yet.',
    listTitle: 'Counts of this date',
    total: (count: number) => points(count),
    problem: {
      plot: 'Name the plot.',
      unknownPlot: (plot: string) => `The trial has no plot ${plot}.`,
      observer: 'Type who counted.',
      hits: 'Whole numbers, 0 or more, and one point at least.',
      date: 'A count belongs to a rating date: choose one.',
    },
    added: (plot: string, count: number) => `Kept: plot ${plot}, ${points(count)}.`,
    estimates: 'Cover by plot',
  },

  training: {
    title: 'Training on pictures whose truth is known',
    intro: (pictures: number, pointsEach: number) =>
      `${pictures} rendered pictures, ${points(pointsEach)} on each. First you rate the cover at a glance, then you call the points; at the end both are held against the exact truth. About ten minutes.`,
    rendered:
      'The pictures are rendered, not photographed: whoever does well here still has to look at real turf of the trial with somebody who knows it.',
    start: 'Start a round',
    again: (round: number) => `Start round ${round}`,
    loading: 'Fetching the pictures…',
    failed: (detail: string) => `The pictures cannot be fetched (${detail}). Connect once, then try again.`,
    rate: (index: number, of: number) => `Picture ${index} of ${of}: how much of each?`,
    rateHint: 'At a glance, in percent. The three have to add to 100.',
    picture: (index: number) => `Rendered turf, picture ${index}`,
    sum: (sum: number) => `Together ${formatLength(sum)} %`,
    toPoints: 'On to the points',
    leave: 'Leave the training',
    leaveHint: 'A round that is not finished is not kept.',
    results: 'How observers did',
    none: 'Nobody has finished a round yet. The first shows how far anybody’s calls and glances are from the truth.',
    round: (observer: string, round: number) => `${observer}, round ${round}`,
    right: 'Calls that are right',
    kappa: 'Kappa with the truth',
    callBias: 'Calls: cover, bias',
    rateBias: 'Glance: bias',
    spread: 'limits',
    between: 'Between observers',
    betweenHint: 'The newest round that both finished, on the same points.',
    betweenKappa: (first: string, second: string, kappa: string, count: number) =>
      `${first} and ${second}: kappa ${kappa} on ${points(count)}.`,
    seesMore: 'Positive: the observer sees too much of the class.',
  },
});
