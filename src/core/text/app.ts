import { catalogue } from './catalogue.ts';
import { formatCount, formatDay, formatLength, formatQuantity } from './format.ts';

const photos = (count: number) => formatQuantity(count, 'photo', 'photos');

/** What the screens say. Sentences with values are functions. */
export const app = catalogue('app', {
  name: 'Swardbook',
  skipToContent: 'Skip to the content',

  navigation: {
    label: 'Screens',
    plan: 'Plan',
    photos: 'Photos',
    cover: 'Cover',
    review: 'Review',
    points: 'Points',
    compare: 'Compare',
    report: 'Report',
  },

  units: {
    label: 'Lengths and temperatures',
    metric: 'Metric',
    us: 'Metric, with feet, inches and °F beside',
    hint: 'Values are kept in metric units. Fields for lengths and temperatures also take “18 in”, “5 ft” or “65 F”.',
  },

  theme: {
    label: 'Brightness of the screen',
    system: 'As the device',
    light: 'Light',
    dark: 'Dark',
    sun: 'Full sun (black on white)',
  },

  language: {
    label: 'Language',
    system: 'As the device',
  },

  field: {
    open: 'In the field',
    goOn: (date: string) => `Go on in the field: ${formatDay(date, 'short')}`,
    missed: (plot: string) => `The photo of plot ${plot} did not arrive.`,
  },

  start: {
    title: 'Percent cover from photos of turf plots',
    sentence:
      'Open overhead photos of your plots and see how much is ryegrass, lighter weedy grass and bare ground, laid over each photo so that you can judge it.',
    stays: 'Photos are measured and kept in this browser. Nothing is sent anywhere.',
    open: 'Open photos',
    takePhoto: 'Take a photo',
    samples: 'Use the sample photos',
    sampleTrial: 'Open the sample trial',
    sampleTrialHint:
      'The sample trial is invented: four treatments, 16 plots, four dates, 64 rendered photos, with figures, counts and a comparison to look at. Or take only its photos and do all that yourself.',
    drop: 'Or drop photos anywhere on this page.',
    naming: 'A file named 2027-04-12_101.jpg finds its rating date and plot by itself.',
    picture:
      'A plot photo with the classes laid over its right half: R ryegrass, W weedy grass, B bare ground.',
    pictureCaption: 'A sample photo (rendered). The right half shows what was measured.',
  },

  adding: {
    drop: 'Drop to add the photos',
    working: (count: number) => `Adding ${photos(count)}…`,
    workingOnSamples: 'Fetching the sample photos…',
    added: (count: number) => `${photos(count)} added.`,
    duplicates: (count: number) =>
      `${photos(count)} ${count === 1 ? 'is' : 'are'} here already, byte for byte, and left out.`,
    refused: (count: number) => `${formatQuantity(count, 'file', 'files')} not added:`,
    reportLabel: 'What became of the files',
    duplicateOf: 'is the same photo as',
    failed: (reason: string) => `The photos could not be added: ${reason}`,
    dismiss: 'Close this list',
  },

  photos: {
    title: 'Photos',
    add: 'Add photos',
    takePhoto: 'Take a photo',
    sort: 'Order',
    sortByDate: 'By date',
    sortByPlot: 'By plot',
    view: 'Show as',
    viewPictures: 'Pictures',
    viewTable: 'Table',
    plot: (plot: string) => `Plot ${plot}`,
    plotWord: 'Plot',
    dateWord: 'Rating date',
    noPlot: 'Plot not known',
    replaced: (plot: string) => `Replaced at plot ${plot}`,
    noDate: 'Date not known',
    open: (name: string) => `Show the cover of ${name}`,
    select: (name: string) => `Select ${name}`,
    selectGroup: (group: string) => `Select all of ${group}`,
    selected: (count: number) => `${formatCount(count)} selected`,
    selectAll: 'Select all photos',
    selectNone: 'Select none',
    remove: 'Remove',
    edit: 'Plot and date',
    retry: 'Measure again',
    groupSummary: (count: number) => photos(count),
    namedBy: {
      'file-name': 'from the file name',
      exif: 'date from the camera',
      'walking-order': 'from the walking order',
      label: 'from its label',
      person: 'entered by hand',
    },
    work: {
      waiting: 'Waiting',
      running: 'Measuring…',
      paused: 'Paused',
      failed: 'Not measured',
    },
    stale: 'Settings changed; measuring again',
    notMeasured: 'Not measured yet',
    flagged: (count: number) => formatQuantity(count, 'remark', 'remarks'),
    table: {
      caption: 'All photos with their plot, rating date and cover',
      photo: 'Photo',
      origin: 'Plot and date',
      state: 'State',
      percentOf: (name: string) => `${name}, %`,
    },
    troubleTitle: (count: number) => `${photos(count)} not measured`,
    troubleHint: 'The others are done. Each line says what is wrong and what helps.',
    retryAll: 'Measure these again',
  },

  editing: {
    title: (count: number) => (count === 1 ? 'Plot and date' : `Plot and date of ${photos(count)}`),
    plotHint: 'As on the plot label, e.g. 101.',
    keepHint: 'Left empty: each photo keeps its own.',
    save: 'Save',
    cancel: 'Cancel',
  },

  removing: {
    title: (count: number) => `Remove ${photos(count)}?`,
    body: 'The photos, their cover figures and what you marked on them are taken out of this browser. The files on your device stay as they are.',
    confirm: 'Remove',
    cancel: 'Keep',
    done: (count: number) => `${photos(count)} removed.`,
  },

  measuring: {
    label: 'Measuring photos',
    progress: (done: number, total: number) => `Measured ${formatCount(done)} of ${formatCount(total)}`,
    paused: (done: number, total: number) => `Paused at ${formatCount(done)} of ${formatCount(total)}`,
    failed: (count: number) => `${formatCount(count)} failed`,
    started: (total: number) => `Measuring ${photos(total)}.`,
    finished: (done: number, failed: number) =>
      failed === 0 ? `${photos(done)} measured.` : `${photos(done)} measured, ${formatCount(failed)} failed.`,
    pause: 'Pause',
    resume: 'Go on',
    cancel: 'Cancel',
    cancelling: 'Cancelling when all photos are added…',
    cancelled: 'Measuring cancelled. What was measured stays.',
    notMeasured: (count: number) =>
      `${photos(count)} ${count === 1 ? 'has' : 'have'} not been measured, as after cancelling.`,
    measureAll: 'Measure them',
    trouble: {
      'no-workers': (detail: string) =>
        `This browser does not start the part of Swardbook that measures (${detail}). Reload the page; if that does not help, use a current Chrome, Edge, Firefox or Safari.`,
    },
    tryAgain: 'Try again',
  },

  cover: {
    title: 'Cover',
    gone: 'This photo is not here (any more).',
    back: 'All photos',
    position: (at: number, of: number) => `${formatCount(at)} of ${formatCount(of)}`,
    positionLabel: (at: number, of: number) => `Photo ${formatCount(at)} of ${formatCount(of)}`,
    stage: (name: string) => `Photo ${name}. Arrow keys move it, plus and minus zoom, 0 shows all of it.`,
    loading: 'Opening the photo…',
    cannotShow: (name: string) =>
      `${name} cannot be shown: this browser cannot open it. Save it as JPEG and add it again.`,
    summary: (parts: readonly string[]) => `Cover: ${parts.join(', ')}.`,
    part: (name: string, percent: string) => `${name} ${percent} %`,
    tools: 'Photo',
    editTitle: 'Change',
    classShown: (name: string) => `Show ${name} on the photo`,
    overlay: 'Classes on the photo',
    overlayWord: 'Classes',
    overlayShown: 'Shown',
    opacity: 'Strength',
    opacityField: 'Strength in percent',
    patterns: 'Patterns',
    groups: 'Added up for reports',
    groupSum: (names: readonly string[]) => names.join(' + '),
    percentUnit: '%',
    figureTitle: 'Share of the measured ground',
    estimate: 'Automatic estimate',
    target: 'One frame is one place in the plot; it does not speak for the whole plot.',
    wholePhotoTarget: 'One photo is one place in the plot; it does not speak for the whole plot.',
    noInterval: 'No interval: the error of automatic figures has not been validated.',
    caution:
      'A cover figure is an estimate for this place on this day. It supports a judgement and replaces none.',
    measuringNow: 'Measuring…',
    measuringAgain: 'Measuring again; these figures belong to the settings before.',
    waiting: 'Waiting to be measured.',
    paused: 'Measuring is paused.',
    notMeasured: 'Not measured.',
    measureNow: 'Measure again',
    under: (name: string, x: number, y: number) => `${name} at ${x}, ${y}`,
    underNothing: 'Not measured here',
    details: 'Where this figure comes from',
    facts: {
      file: 'File',
      size: 'Photo',
      sizeValue: (widthPx: number, heightPx: number) => `${widthPx} × ${heightPx} px`,
      measured: 'Measured area',
      measuredValue: (pixels: number) => `${formatCount(pixels)} pixels`,
      scale: 'Scale',
      scaleValue: (mm: number) => `${mm.toPrecision(3)} mm to a pixel`,
      scaleUnknown: 'not known: no frame size',
      method: 'Method',
      methodValue: 'automatic, each pixel weighted by the ground it stands for',
      methodValueFlat: 'automatic, every pixel counted alike (no frame)',
      model: 'Model',
      decoder: 'Decoder',
      software: 'Software',
      when: 'Measured',
      taken: 'Taken',
      hash: 'Photo SHA-256',
      neutral: 'Grey card',
      neutralValue: 'marked; colours balanced by it',
      neutralNone: 'none marked',
      gapRule: 'Gaps between leaves',
    },
  },

  frame: {
    title: 'Measured area',
    mark: 'Mark',
    change: 'Mark again',
    done: 'Done',
    none: 'No frame marked: the whole photo is measured, edges and all.',
    marked: 'Inside the inner edge of the frame.',
    hint: 'Drag the four corners onto the inner edge of the frame.',
    keyHint: 'Arrow keys move the chosen corner by one pixel, with Shift by ten.',
    corners: ['Top left', 'Top right', 'Bottom right', 'Bottom left'] as const,
    handle: (corner: string, x: number, y: number) =>
      `${corner} corner, across ${formatLength(x)}, down ${formatLength(y)}`,
    across: 'Across',
    down: 'Down',
    corner: 'Corner',
    pixels: 'px',
    within: (widthPx: number, heightPx: number) =>
      `Pixels of the photo, ${widthPx} across and ${heightPx} down, from its top left.`,
    failed: (reason: string) => `The area could not be stored: ${reason}`,
    cornerField: (corner: string, direction: string) => `${corner}, ${direction.toLowerCase()} (px)`,
    size: 'Inner size of the frame',
    width: 'Width',
    height: 'Height',
    millimetres: 'mm',
    sizeHint: 'Leave both empty when the size is not known.',
    sizeBoth: 'Enter width and height, or leave both empty.',
    clear: 'Measure the whole photo',
    undo: 'Undo',
    notMeasured: 'The area stays as it was until this is put right.',
    notNumber: (value: string) => `"${value}" is not a number. Write it like 221.7.`,
    outOfRange: (value: string, least: number, most: number) =>
      `${value} is out of range: ${formatLength(least)} to ${formatLength(most)}.`,
  },

  problems: {
    'worker-died': (attempts: number) =>
      `Measuring this photo stopped ${formatQuantity(attempts, 'time', 'times')} without an answer, mostly for want of memory. Close other tabs and measure it again, or save it at a smaller size.`,
    unexpected: (name: string, message: string) =>
      `Something went wrong that should not (${name}: ${message}). Measure it again; if that fails too, remove it and add it once more.`,
    'photo-bytes-missing':
      'The photo itself is no longer in this browser, which may have cleared it to make room. Remove it and add the file again.',
    'storage-full':
      'This browser has no space left. Remove photos that are done with, or free space on the device, and add it again.',
    'file-unreadable': (detail: string) =>
      `The file could not be read (${detail}). It may have been moved, or its card taken out; add it again.`,
    'storage-failed': (detail: string) =>
      `The browser could not keep the photo (${detail}). Reload the page and add it again.`,
  },

  flags: {
    'no-second-kind':
      'Only one kind of grass was found, so dark and light grass were not told apart. If both are there, judge by eye.',
    'no-vegetation': 'Hardly any living grass was found. Check that the measured area lies on the plot.',
    'no-ground': 'No bare ground was found between the plants.',
    'seedling-stand':
      'The grass is too pale to tell ryegrass from weedy grass by its colour, as in a young stand.',
    'unlike-training': 'This photo does not look like those the model was taught on. Check it closely.',
    uncertain: 'Much of the area lies between two classes. Check it closely.',
    'class-without-strokes':
      'A class has no strokes that show it, so it cannot be found here and is given 0 %. Teach the date with strokes of it.',
    'model-of-other-classes':
      'The model taught for this date knows other classes than the trial has now, so it was not used: the start model measured this photo. Teach the date again.',
    'gap-rule-needs-scale':
      'The trial’s rule for small gaps is in millimetres, and the size of the frame is not known: every pixel was counted. Enter the frame’s size.',
    'too-few-pixels': 'The measured area holds few pixels, so the figure is coarse.',
    'no-colour': 'The photo has hardly any colour, so the classes cannot be told apart safely.',
    'neutral-unusable':
      'The grey card could not be used: it is overexposed, too dark or outside the photo. Colours were taken as they are.',
  },

  storage: {
    opening: 'Opening your photos…',
    heading: {
      blocked: 'Waiting for another tab',
      newer: 'Photos of a newer version',
      failed: 'The photos cannot be opened',
    },
    savedAt: (time: string) => `Saved ${time}`,
    title: 'Where the photos are kept',
    persisted: 'In this browser, which has promised not to clear them by itself.',
    notPersisted:
      'In this browser, which may clear them when space runs short. Keep the photo files; installing this page as an app usually prevents it.',
    otherTabs: 'Swardbook is open in another tab as well. Both show the same photos; work in one of them.',
    newer:
      'These photos were saved by a newer version of Swardbook. This version leaves them untouched. Open the newer version, or save the raw records to a file.',
    blocked:
      'Another tab holds an older version open. Close the other Swardbook tabs; this one then goes on by itself.',
    failed: {
      'insecure-context': () =>
        'Nothing can be kept here: the page was not opened over https or from localhost, and browsers offer no safe storage elsewhere. Open it over https.',
      forbidden: () =>
        'Nothing can be kept here: the settings of this browser, or its private window, allow Swardbook no storage. Allow this address to keep data (often listed under cookies), or use an ordinary window, then reload the page.',
      closed: () =>
        'The browser closed the place where the photos are kept: its data were cleared, or the device has no room left. What is on screen can still be read; nothing more is stored. Save the raw records if any are left, make room on the device, then reload the page. Photos that are gone come back from their files or from an archive.',
      'upgrade-failed': (detail: string) =>
        `The photos kept in this browser could not be brought to this version (${detail}). They are as they were before. Save the raw records to a file, then reload the page; if it says the same again, go on with the version used before.`,
      'not-opened': (detail: string) =>
        `The photos kept in this browser cannot be opened (${detail}). Save the raw records to a file, close all windows of this browser, and open the page again.`,
      'write-failed': (detail: string) =>
        `The last change was not stored (${detail}). What was stored before is still there. Save the raw records to a file, then reload the page.`,
    },
    full: (used: string | null) =>
      `No space is left for Swardbook${used ? `, which keeps ${used} here` : ''}; the last change was not stored. Save the raw records to a file first, then make room on the device and reload the page. Do not remove photos here before that.`,
    lost: (count: number, day: string) =>
      `${photos(count)} ${count === 1 ? 'was' : 'were'} kept in this browser on ${day} and ${count === 1 ? 'is' : 'are'} no longer there. Browsers clear what pages keep when space runs short or a page was not used for long. Add the files again, or open an archive.`,
    mayLose:
      'Photos are kept in this browser, which has not promised to keep them. Some phones clear what a page keeps when it was not installed and not used for some days, and a private window forgets all. Put the page on the home screen, keep the photo files, and save an archive after each day.',
    decoderDiffers:
      'This browser decodes photos slightly differently from the reference. Figures may differ in the last digits from those of another machine; each figure notes its decoder.',
    unreadable: (count: number) =>
      `${formatQuantity(count, 'record', 'records')} in this browser cannot be read. They are kept as they are and left out of the lists.`,
    export: 'Save the raw records',
    exportFailed: (reason: string) => `Saving failed: ${reason}`,
    nothingToExport: 'There are no records left in this browser to save.',
    understood: 'Understood',
  },

  help: {
    title: 'Keys and help',
    open: 'Keys and help',
    everywhere: 'Everywhere',
    here: 'On this screen',
    key: 'Key',
    action: 'What it does',
    singleKeys: 'Single letters and digits act as keys',
    singleKeysHint: 'Switch this off if you control the computer by voice.',
    licences: 'Licences of the work of others in this program',
    caution:
      'Swardbook supports a judgement and replaces none. A cover figure is an estimate; it holds for this place, season and turf. Product labels and local regulations decide what is applied.',
    photoKeys:
      'On the photo: arrow keys move it. On a corner: arrow keys move the corner by one pixel, with Shift by ten.',
  },

  commands: {
    help: 'Show keys and help',
    openPhotos: 'Open photos',
    goToPhotos: 'Go to Photos',
    goToPlan: 'Go to the plan',
    selectAll: 'Select all photos',
    selectNone: 'Select none',
    remove: 'Remove the selected photos',
    edit: 'Set plot and date of the selected photos',
    togglePictures: 'Pictures or table',
    pause: 'Pause or go on measuring',
    previous: 'Previous photo',
    next: 'Next photo',
    zoomIn: 'Zoom in',
    zoomOut: 'Zoom out',
    fit: 'Show the whole photo',
    actualPixels: 'One photo pixel to one screen pixel',
    overlay: 'Classes on the photo on or off',
    patterns: 'Patterns on or off',
    classShown: (name: string) => `${name} on or off`,
    frame: 'Mark the measured area',
    undoFrame: 'Undo the last change of the area',
  },

  keys: {
    Delete: 'Delete',
    Escape: 'Esc',
    Enter: 'Enter',
    ' ': 'Space',
    ArrowLeft: '←',
    ArrowRight: '→',
    shift: 'Shift',
    control: 'Ctrl',
    command: '⌘',
  },

  day: (day: string) => formatDay(day),
  shortDay: (day: string) => formatDay(day, 'short'),
  close: 'Close',
  crashed: 'This screen stopped with an error. Your photos are safe; reload the page to go on.',
  reload: 'Reload',
});
