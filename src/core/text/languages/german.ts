import type { PlotTableProblem } from '../../exchange/plotTable.ts';
import type { TableFault, TableProblem } from '../../exchange/trialTablesCells.ts';
import type { Interval } from '../../statistics/proportions/proportionInterval.ts';
import type { FieldFault, FieldForm } from '../../trial/fieldProblem.ts';
import type { NameProblem } from '../../trial/fileNamePattern.ts';
import type { LayoutProblem } from '../../trial/layoutProblems.ts';
import type { PlanProblem } from '../../trial/planProblems.ts';
import type { LabelProblem } from '../../trial/plotLabel.ts';
import {
  formatAmount,
  formatBytes,
  formatCount,
  formatDay,
  formatDecimals,
  formatInstant,
  formatLength,
  formatList,
  formatPercent,
  formatQuantity,
  formatSigned,
} from '../format.ts';
import type { Translation } from './translation.ts';

const photos = (count: number) => formatQuantity(count, 'Foto', 'Fotos');

const strokes = (count: number) => formatQuantity(count, 'Strich', 'Striche');
const points = (count: number) => formatQuantity(count, 'Punkt', 'Punkte');
const span = ({ low, high }: Interval) =>
  `${formatPercent(Math.max(0, low))} bis ${formatPercent(Math.min(1, high))} %`;
const metres = (value: number) => `${value.toFixed(2)} m`;
const placeWords = (plot: string, number: number | null) =>
  number === null ? `Parzelle ${plot}` : `Parzelle ${plot}, Stelle ${formatCount(number)}`;
const SIDES = ['oben', 'rechts', 'unten', 'links'];
const CORNERS = ['oben links', 'oben rechts', 'unten rechts', 'unten links'];
const gestures = (count: number) => formatQuantity(count, 'Handlung', 'Handlungen');

const AGREEMENT_IS_NO_ACCURACY =
  'Das ist nicht die Genauigkeit: Gemalt wird an leichten Stellen. Prüfen Sie den Wert mit Punkten.';

const METHODS = {
  automatic: 'vom Modell gemessen',
  corrected: 'gemessen und von Hand korrigiert',
  points: 'an Punkten gezählt',
  adjusted: 'um die Fehler der Maske berichtigt',
  visual: 'nach Augenschein bonitiert',
};
const TRANSFORMS = {
  none: 'keine',
  'arcsine-square-root': 'Arkussinus der Quadratwurzel',
  log: 'log10(x + 1)',
};
const DRIFTS = {
  classes: 'die Klassen',
  'gap-rule': 'die Regel für kleine Lücken',
  exclusions: 'die Ausschlüsse',
  'variable-gone': 'die Hauptgröße, die der Plan nicht mehr hat',
};
const DIRECTIONS = { lower: 'niedriger', higher: 'höher' };

/** So many are listed; the rest is counted. */
const LISTED = 8;
const andMore = (items: readonly (string | number)[]): string => {
  const shown = items.slice(0, LISTED).map(String);
  const more = items.length - shown.length;
  if (more > 0) return `${shown.join(', ')} und ${more} weitere`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} und ${shown.at(-1)}`;
};
const treatmentWords = (names: readonly string[]) =>
  `${names.length === 1 ? 'Prüfglied' : 'die Prüfglieder'} ${andMore(names)}`;

const PLOT_CORNERS = {
  'near-left': 'vorn links',
  'near-right': 'vorn rechts',
  'far-left': 'hinten links',
  'far-right': 'hinten rechts',
};

const APPLICATION_CAUTION =
  'Es gelten die Gebrauchsanleitung des Mittels und die örtlichen Vorschriften. Anwendungen gehören in die Hand von Personen mit dem vorgeschriebenen Sachkundenachweis und der Schutzausrüstung, die die Gebrauchsanleitung nennt. Dieses Programm empfiehlt kein Mittel und keine Aufwandmenge.';
const EXPERIMENTAL_USE = 'Enthält versuchsweise Anwendungen, die keine Gebrauchsanleitung erlaubt.';

const met = (value: unknown): string => {
  if (value === undefined || value === null || value === '') return 'nichts';
  const written = typeof value === 'string' ? value : JSON.stringify(value);
  return `„${written.length > 60 ? `${written.slice(0, 60)}…` : written}“`;
};

/** By the names of the checker of records. */
const KINDS: Readonly<Record<string, string>> = {
  number: 'eine Zahl',
  string: 'ein Text',
  boolean: 'ja oder nein',
  array: 'eine Liste',
  object: 'ein Datensatz',
  value: 'ein Wert',
};

const FORMS: Readonly<Record<FieldForm, string>> = {
  id: 'erlaubt sind bis zu 64 Buchstaben, Ziffern, „.“, „_“ und „-“, am Anfang ein Buchstabe oder eine Ziffer',
  'plot-name':
    'erlaubt sind bis zu 12 Buchstaben, Ziffern, „.“ und „-“, am Anfang ein Buchstabe oder eine Ziffer, passend für ein Etikett',
  'trial-code': 'verlangt sind sechs Großbuchstaben und Ziffern, ohne I, L, O und U',
  'class-id': 'verlangt sind Kleinbuchstaben und Ziffern, durch „-“ getrennt, z. B. weedy-grass',
  'class-key': 'verlangt ist ein Großbuchstabe oder eine Ziffer',
  colour: 'eine Farbe schreibt sich #rrggbb in Kleinbuchstaben, z. B. #0072b2',
  instant: 'ein Zeitpunkt schreibt sich in UTC, z. B. 2027-04-12T01:15:00Z',
};

function faultWords(fault: FieldFault | TableFault, value: unknown): string {
  switch (fault.code) {
    case 'missing':
      return 'fehlt. Füllen Sie es aus.';
    case 'blank':
      return 'ist leer. Füllen Sie es aus.';
    case 'wrong-kind':
      return `ist ${met(value)}; verlangt ist ${KINDS[fault.expected] ?? fault.expected}.`;
    case 'too-small':
      return `ist ${met(value)}; erlaubt ist ${fault.allowed ? `${fault.least} oder mehr` : `mehr als ${fault.least}`}. Prüfen Sie Zahl und Einheit.`;
    case 'too-large':
      return `ist ${met(value)}; erlaubt ist ${fault.allowed ? `höchstens ${fault.most}` : `weniger als ${fault.most}`}. Prüfen Sie Zahl und Einheit.`;
    case 'too-few':
      return `hat zu wenige Einträge; nötig ${fault.least === 1 ? 'ist' : 'sind'} mindestens ${fault.least}.`;
    case 'too-many':
      return `hat zu viele Einträge; erlaubt sind höchstens ${fault.most}.`;
    case 'too-long':
      return `ist zu lang; höchstens ${fault.most} Zeichen passen.`;
    case 'not-one-of':
      return `ist ${met(value)}; wählen Sie eines von ${fault.allowed.join(', ')}.`;
    case 'unknown-field':
      return `hat Felder, die hier nicht bekannt sind: ${andMore(fault.names)}. Entfernen Sie sie, oder aktualisieren Sie das Programm, falls eine neuere Version sie geschrieben hat.`;
    case 'not-a-day':
      return `ist ${met(value)}; das ist kein Kalendertag zwischen 1950 und 2149. Tage schreiben sich JJJJ-MM-TT, z. B. 2027-04-12.`;
    case 'not-a-clock-time':
      return `ist ${met(value)}; Uhrzeiten schreiben sich HH:MM, z. B. 09:30.`;
    case 'not-whole':
      return `ist ${met(value)}; verlangt ist eine ganze Zahl.`;
    case 'not-in-this-form':
      return `ist ${met(value)}; ${FORMS[fault.form]}.`;
    case 'unit-unknown':
      return `ist ${met(value)}, eine unbekannte Einheit. Bekannt sind unter anderem ${andMore(fault.allowed)}.`;
    case 'ounce-unclear':
      return `ist ${met(value)}: eine Unze Gewicht oder eine Flüssigunze? Schreiben Sie „${fault.choices[0]}“ oder „${fault.choices[1]}“, wie es in der Gebrauchsanleitung steht.`;
    case 'unit-of-wrong-kind':
      return `ist ${met(value)}, eine Einheit von etwas anderem. Es passen unter anderem ${andMore(fault.expected)}.`;
    case 'net-larger-than-gross':
      return `ist ${met(value)} mm, mehr als die ${fault.grossMm} mm der Bruttoparzelle. Die Nettoparzelle liegt in der Bruttoparzelle.`;
    case 'bounds-crossed':
      return `hat vertauschte Grenzen: kleinster Wert ${fault.least}, größter ${fault.most}. Tauschen Sie sie, oder berichtigen Sie einen.`;
    case 'step-does-not-fit':
      return `ist ${met(value)}; solche Schritte führen nicht von ${fault.least} zu ${fault.most}.`;
    case 'not-unique':
      return `ist ${met(value)}, was schon da steht. Jedes darf einmal stehen.`;
    case 'table-empty':
      return 'Die Tabelle enthält nichts. Sie braucht eine Zeile mit Spaltennamen und eine Zeile je Eintrag.';
    case 'column-missing':
      return `fehlt. Gefundene Spalten: ${andMore(fault.found)}. Benennen Sie die Spalte so, oder fügen Sie sie hinzu.`;
    case 'column-twice':
      return 'steht zweimal da. Entfernen Sie eine der Spalten, oder benennen Sie sie um.';
    case 'too-many-rows':
      return `${fault.rows} Zeilen sind mehr, als eine solche Tabelle fasst (höchstens ${fault.most}). Prüfen Sie, ob es die richtige Datei ist, oder teilen Sie sie.`;
    case 'too-many-cells':
      return `Die Zeile hat ${fault.cells} Zellen unter ${fault.columns} Spaltennamen. Ein Text mit einem Komma braucht Anführungszeichen.`;
    case 'not-a-number':
      return `ist ${met(value)}; verlangt ist eine Zahl, ohne Einheit.`;
    case 'not-a-timing':
      return `ist ${met(value)}. Schreiben Sie einen Tag (2027-04-12) oder in englischer Schreibweise „12 days before sowing“, „3 weeks after application A2“ oder „stage 21“.`;
    case 'done-and-left-out':
      return `nennt einen Grund, auszulassen, was am ${fault.doneOn} erledigt wurde. Leeren Sie eine der beiden Zellen.`;
    case 'said-before':
      return `ist ${met(value)}, was schon in Zeile ${fault.firstRow} steht. Jedes darf einmal stehen.`;
    case 'differs-from-row':
      return `ist ${met(value)}, aber Zeile ${fault.firstRow} sagt ${met(fault.before)}. Machen Sie beides gleich.`;
  }
}

function layoutWords(problem: LayoutProblem): string {
  switch (problem.code) {
    case 'plot-twice':
      return `Parzelle ${problem.plot} steht zweimal da. Jede Parzelle hat einen eigenen Namen; benennen Sie eine um, oder entfernen Sie sie.`;
    case 'two-plots-in-one-place':
      return `Die Parzellen ${andMore(problem.plots)} teilen sich Reihe ${problem.row}, Spalte ${problem.column} der Karte. Verschieben Sie eine.`;
    case 'treatment-unknown':
      return `Parzelle ${problem.plot} hat Prüfglied ${problem.treatment}, das dieser Versuch nicht hat. Berichtigen Sie es, oder fügen Sie erst das Prüfglied hinzu.`;
    case 'block-missing':
      return `Parzelle ${problem.plot} hat keinen Block, aber die Parzellen dieser Anlage liegen in Blöcken. Tragen Sie ihren Block ein.`;
    case 'treatment-missing-in-block':
      return `Block ${problem.block} hat keine Parzelle von Prüfglied ${problem.treatment}; in vollständigen Blöcken hat jeder Block jedes Prüfglied. Fügen Sie die Parzelle hinzu, oder wählen Sie einen eigenen Lageplan.`;
    case 'treatment-twice-in-block':
      return `Block ${problem.block} hat Prüfglied ${problem.treatment} mehr als einmal (Parzellen ${andMore(problem.plots)}). Berichtigen Sie eine, oder wählen Sie einen eigenen Lageplan.`;
    case 'treatment-without-plot':
      return `Prüfglied ${problem.treatment} hat keine Parzelle. Geben Sie ihm Parzellen, oder entfernen Sie es.`;
    case 'treatment-twice-in-column':
      return `Spalte ${problem.column} hat Prüfglied ${problem.treatment} mehr als einmal (Parzellen ${andMore(problem.plots)}). Im Lateinischen Quadrat steht jedes Prüfglied einmal in jeder Reihe und Spalte.`;
    case 'not-a-square':
      return `Ein Lateinisches Quadrat aus ${problem.treatments} Prüfgliedern hat ebenso viele Reihen und Spalten und an jeder Stelle eine Parzelle; diese Karte hat ${problem.rows} Reihen und ${problem.columns} Spalten. Vervollständigen Sie sie, oder wählen Sie eine andere Anlage.`;
  }
}

const LAYOUT_CODES: ReadonlySet<string> = new Set<LayoutProblem['code']>([
  'plot-twice',
  'two-plots-in-one-place',
  'treatment-unknown',
  'block-missing',
  'treatment-missing-in-block',
  'treatment-twice-in-block',
  'treatment-without-plot',
  'treatment-twice-in-column',
  'not-a-square',
]);

const LIST_NAMES = {
  applications: 'Anwendung',
  ratings: 'Bonitur',
  ratedVariables: 'bonitierte Größe',
  deviations: 'Abweichung',
  exclusions: 'Ausschluss',
} as const;

function planWords(problem: PlanProblem): string {
  switch (problem.code) {
    case 'treatment-number-twice':
      return `Zwei Prüfglieder haben die Nummer ${problem.treatment}. Geben Sie einem eine andere.`;
    case 'several-untreated-controls':
      return `Die Prüfglieder ${andMore(problem.treatments)} sind alle als unbehandelte Kontrolle markiert; ein Versuch hat eine. Heben Sie die Markierung der anderen auf.`;
    case 'id-twice':
      return `Zwei Datensätze der Art ${LIST_NAMES[problem.list]} heißen „${problem.id}“. Benennen Sie einen um.`;
    case 'application-of-unknown-treatment':
      return `Anwendung ${problem.application} gilt Prüfglied ${problem.treatment}, das dieser Versuch nicht hat. Berichtigen Sie sie, oder fügen Sie erst das Prüfglied hinzu.`;
    case 'timing-after-unknown-application':
      return `„${problem.of}“ richtet sich nach Anwendung „${problem.application}“, die dieser Versuch nicht hat. Berichtigen Sie den Zeitpunkt.`;
    case 'timing-ring':
      return `Die Anwendungen ${problem.applications.join(', ')} richten sich im Kreis nacheinander; keine von ihnen hat daher einen Tag. Geben Sie einer einen eigenen Tag oder einen Abstand von der Aussaat.`;
    case 'sowing-after-first-rating':
      return `Die Aussaat am ${formatDay(problem.sowingDate)} liegt nach der ersten Bonitur „${problem.rating}“ am ${formatDay(problem.firstRating)}. Berichtigen Sie eines der beiden Daten.`;
    case 'rating-date-twice':
      return `Die Bonituren ${andMore(problem.ratings)} fallen auf denselben Tag, den ${formatDay(problem.date)}. Verschieben Sie eine, oder machen Sie eine daraus.`;
    case 'exclusion-of-unknown-plot':
      return `Ausschluss ${problem.exclusion} gilt Parzelle ${problem.plot}, die dieser Versuch nicht hat. Berichtigen Sie seine Parzelle.`;
    default:
      return layoutWords(problem);
  }
}

function labelWords(problem: LabelProblem): string {
  switch (problem.code) {
    case 'not-a-label':
      return 'Der Code im Foto ist kein Parzellenetikett dieses Programms.';
    case 'label-newer':
      return `Das Etikett wurde von einer neueren Version dieses Programms gedruckt (Form ${problem.version}). Aktualisieren Sie das Programm.`;
    case 'label-damaged':
      return 'Das Etikett wurde mit einem Fehler gelesen: Sein Prüfzeichen passt nicht. Sehen Sie das Foto an und wählen Sie die Parzelle von Hand.';
    case 'label-of-other-trial':
      return `Das Etikett gehört zu einem anderen Versuch (${problem.trial}, Parzelle ${problem.plot}). Legen Sie das Foto in jenen Versuch, oder wählen Sie die Parzelle von Hand.`;
    case 'label-of-unknown-plot':
      return `Das Etikett sagt Parzelle ${problem.plot}, die dieser Versuch nicht hat. Wählen Sie die Parzelle von Hand.`;
  }
}

function nameWords(problem: NameProblem): string {
  switch (problem.code) {
    case 'name-fits-no-pattern':
      return `Der Dateiname passt zu keinem der Muster ${andMore(problem.patterns)}.`;
    case 'name-with-unknown-plot':
      return `Nach ${problem.pattern} sagt der Dateiname Parzelle ${problem.plot}, die dieser Versuch nicht hat.`;
    case 'name-with-impossible-date':
      return `Nach ${problem.pattern} sagt der Dateiname ${problem.date}, was kein Kalendertag ist.`;
  }
}

const TABLE_NAMES = {
  treatments: 'Tabelle der Prüfglieder',
  plots: 'Tabelle der Parzellen',
  applications: 'Tabelle der Anwendungen',
  ratings: 'Tabelle der Boniturtermine',
} as const;

const isLayoutFault = (fault: TableFault | LayoutProblem): fault is LayoutProblem =>
  LAYOUT_CODES.has(fault.code);

function tableWords({ row, column, fault, met: value }: TableProblem | PlotTableProblem): string {
  const place = row === null ? '' : `Zeile ${row}: `;
  if (isLayoutFault(fault)) return place + layoutWords(fault);
  const sentence = faultWords(fault, value);
  if (column === null) return place + sentence;
  return row === null ? `Spalte „${column}“ ${sentence}` : `Zeile ${row}, Spalte „${column}“ ${sentence}`;
}

const RESULTS_CAUTION =
  'Was ausgebracht werden darf, bestimmen die Gebrauchsanleitung des Mittels und die örtlichen Vorschriften; Anwendungen gehören in die Hand von Personen mit dem vorgeschriebenen Sachkundenachweis und der Schutzausrüstung, die die Gebrauchsanleitung nennt. ' +
  'Ergebnisse gelten für diesen Ort, diese Saison, diesen Rasen und diesen Unkrautbestand; ein Deckungsgrad ist eine Schätzung.';

const dated = (date: string | null) => (date === null ? 'Fotos ohne Termin' : formatDay(date));
const plots = (count: number) => formatQuantity(count, 'Parzelle', 'Parzellen');
const NO_VALUE = 'kein Wert';
const oneDecimal = (value: number) => formatDecimals(value, 1);
const withUnit = (value: number | null, unit: string): string =>
  value === null ? NO_VALUE : unit ? `${oneDecimal(value)} ${unit}` : oneDecimal(value);

/** German: formal and plain. */
export const german: Translation = {
  defaultClassNames: {
    ryegrass: 'Raigras',
    weedyGrass: 'Ungras',
    bareGround: 'Boden (Erde, Filz, ruhender Rasen)',
  },

  app: {
    skipToContent: 'Zum Inhalt springen',

    navigation: {
      label: 'Bereiche',
      plan: 'Plan',
      photos: 'Fotos',
      cover: 'Deckung',
      review: 'Durchsicht',
      points: 'Punkte',
      compare: 'Vergleich',
      report: 'Bericht',
    },

    theme: {
      label: 'Helligkeit des Bildschirms',
      system: 'Wie das Gerät',
      light: 'Hell',
      dark: 'Dunkel',
      sun: 'Volle Sonne (Schwarz auf Weiß)',
    },

    language: { label: 'Sprache', system: 'Wie das Gerät' },

    field: {
      open: 'Auf dem Feld',
      goOn: (date) => `Auf dem Feld weitermachen: ${formatDay(date, 'short')}`,
      missed: (plot) => `Das Foto von Parzelle ${plot} ist nicht angekommen.`,
    },

    start: {
      title: 'Deckungsgrad aus Fotos von Rasenparzellen',
      sentence:
        'Öffnen Sie senkrecht aufgenommene Fotos Ihrer Parzellen und sehen Sie, wie viel davon Raigras, helleres Ungras und offener Boden ist: über jedes Foto gelegt, damit Sie selbst urteilen können.',
      stays: 'Die Fotos werden in diesem Browser gemessen und aufbewahrt. Nichts wird irgendwohin gesendet.',
      open: 'Fotos öffnen',
      takePhoto: 'Foto aufnehmen',
      samples: 'Beispielfotos verwenden',
      sampleTrial: 'Beispielversuch öffnen',
      sampleTrialHint:
        'Der Beispielversuch ist erfunden: vier Prüfglieder, 16 Parzellen, vier Termine, 64 gerechnete Fotos, mit Werten, Zählungen und einem Vergleich zum Ansehen. Oder nehmen Sie nur seine Fotos und machen Sie das alles selbst.',
      drop: 'Oder ziehen Sie Fotos auf diese Seite.',
      naming: 'Eine Datei namens 2027-04-12_101.jpg findet Boniturtermin und Parzelle von selbst.',
      picture:
        'Ein Parzellenfoto, über dessen rechter Hälfte die Klassen liegen: R Raigras, W Ungras, B offener Boden.',
      pictureCaption: 'Ein Beispielfoto (gerechnet). Die rechte Hälfte zeigt, was gemessen wurde.',
    },

    adding: {
      drop: 'Loslassen, um die Fotos aufzunehmen',
      working: (count) => `${photos(count)} ${count === 1 ? 'wird' : 'werden'} aufgenommen …`,
      workingOnSamples: 'Die Beispielfotos werden geholt …',
      added: (count) => `${photos(count)} aufgenommen.`,
      duplicates: (count) =>
        `${photos(count)} ${count === 1 ? 'ist' : 'sind'} Byte für Byte schon hier und ${count === 1 ? 'wurde' : 'wurden'} ausgelassen.`,
      refused: (count) => `${formatQuantity(count, 'Datei', 'Dateien')} nicht aufgenommen:`,
      reportLabel: 'Was aus den Dateien wurde',
      duplicateOf: 'ist dasselbe Foto wie',
      failed: (reason) => `Die Fotos konnten nicht aufgenommen werden: ${reason}`,
      dismiss: 'Diese Liste schließen',
    },

    photos: {
      title: 'Fotos',
      add: 'Fotos hinzufügen',
      takePhoto: 'Foto aufnehmen',
      sort: 'Reihenfolge',
      sortByDate: 'Nach Termin',
      sortByPlot: 'Nach Parzelle',
      view: 'Anzeigen als',
      viewPictures: 'Bilder',
      viewTable: 'Tabelle',
      plot: (plot) => `Parzelle ${plot}`,
      plotWord: 'Parzelle',
      dateWord: 'Boniturtermin',
      noPlot: 'Parzelle unbekannt',
      noDate: 'Termin unbekannt',
      open: (name) => `Deckung von ${name} zeigen`,
      select: (name) => `${name} auswählen`,
      selectGroup: (group) => `Alle auswählen: ${group}`,
      selected: (count) => `${formatCount(count)} ausgewählt`,
      selectAll: 'Alle Fotos auswählen',
      selectNone: 'Auswahl aufheben',
      remove: 'Entfernen',
      edit: 'Parzelle und Termin',
      retry: 'Neu messen',
      groupSummary: (count) => photos(count),
      namedBy: {
        'file-name': 'aus dem Dateinamen',
        exif: 'Datum aus der Kamera',
        'walking-order': 'aus der Gehreihenfolge',
        label: 'von seinem Etikett',
        person: 'von Hand eingetragen',
      },
      work: {
        waiting: 'Wartet',
        running: 'Wird gemessen …',
        paused: 'Angehalten',
        failed: 'Nicht gemessen',
      },
      stale: 'Einstellungen geändert; wird neu gemessen',
      notMeasured: 'Noch nicht gemessen',
      flagged: (count) => formatQuantity(count, 'Hinweis', 'Hinweise'),
      table: {
        caption: 'Alle Fotos mit Parzelle, Boniturtermin und Deckungsgrad',
        photo: 'Foto',
        origin: 'Parzelle und Termin',
        state: 'Stand',
        percentOf: (name) => `${name}, %`,
      },
      troubleTitle: (count) => `${photos(count)} nicht gemessen`,
      troubleHint: 'Die anderen sind fertig. Jede Zeile sagt, woran es liegt und was hilft.',
      retryAll: 'Diese neu messen',
    },

    editing: {
      title: (count) => (count === 1 ? 'Parzelle und Termin' : `Parzelle und Termin von ${photos(count)}`),
      plotHint: 'Wie auf dem Parzellenetikett, z. B. 101.',
      keepHint: 'Bleibt das Feld leer, behält jedes Foto seinen Eintrag.',
      save: 'Speichern',
      cancel: 'Abbrechen',
    },

    removing: {
      title: (count) => `${photos(count)} entfernen?`,
      body: 'Die Fotos, ihre Deckungsgrade und was Sie darauf markiert haben, werden aus diesem Browser genommen. Die Dateien auf Ihrem Gerät bleiben, wie sie sind.',
      confirm: 'Entfernen',
      cancel: 'Behalten',
      done: (count) => `${photos(count)} entfernt.`,
    },

    measuring: {
      label: 'Fotos werden gemessen',
      progress: (done, total) => `${formatCount(done)} von ${formatCount(total)} gemessen`,
      paused: (done, total) => `Angehalten bei ${formatCount(done)} von ${formatCount(total)}`,
      failed: (count) => `${formatCount(count)} fehlgeschlagen`,
      started: (total) => `${photos(total)} ${total === 1 ? 'wird' : 'werden'} gemessen.`,
      finished: (done, failed) =>
        failed === 0
          ? `${photos(done)} gemessen.`
          : `${photos(done)} gemessen, ${formatCount(failed)} fehlgeschlagen.`,
      pause: 'Anhalten',
      resume: 'Weiter',
      cancel: 'Abbrechen',
      cancelling: 'Wird abgebrochen, sobald alle Fotos aufgenommen sind …',
      cancelled: 'Messen abgebrochen. Was gemessen ist, bleibt.',
      notMeasured: (count) =>
        `${photos(count)} ${count === 1 ? 'ist' : 'sind'} nicht gemessen, etwa nach einem Abbruch.`,
      measureAll: 'Jetzt messen',
      trouble: {
        'no-workers': (detail) =>
          `Dieser Browser startet den messenden Teil von Swardbook nicht (${detail}). Laden Sie die Seite neu; hilft das nicht, nehmen Sie einen aktuellen Chrome, Edge, Firefox oder Safari.`,
      },
      tryAgain: 'Noch einmal versuchen',
    },

    cover: {
      title: 'Deckung',
      gone: 'Dieses Foto ist nicht (mehr) hier.',
      back: 'Alle Fotos',
      position: (at, of) => `${formatCount(at)} von ${formatCount(of)}`,
      positionLabel: (at, of) => `Foto ${formatCount(at)} von ${formatCount(of)}`,
      stage: (name) =>
        `Foto ${name}. Pfeiltasten verschieben es, Plus und Minus vergrößern und verkleinern, 0 zeigt es ganz.`,
      loading: 'Foto wird geöffnet …',
      cannotShow: (name) =>
        `${name} kann nicht gezeigt werden: Dieser Browser kann es nicht öffnen. Speichern Sie es als JPEG und fügen Sie es neu hinzu.`,
      summary: (parts) => `Deckung: ${parts.join(', ')}.`,
      part: (name, percent) => `${name} ${percent} %`,
      tools: 'Foto',
      editTitle: 'Ändern',
      classShown: (name) => `${name} auf dem Foto zeigen`,
      overlay: 'Klassen auf dem Foto',
      overlayWord: 'Klassen',
      overlayShown: 'Sichtbar',
      opacity: 'Stärke',
      opacityField: 'Stärke in Prozent',
      patterns: 'Muster',
      groups: 'Für Berichte zusammengezählt',
      groupSum: (names) => names.join(' + '),
      percentUnit: '%',
      figureTitle: 'Anteil am gemessenen Boden',
      estimate: 'Automatische Schätzung',
      target: 'Ein Rahmen ist eine Stelle der Parzelle; er spricht nicht für die ganze Parzelle.',
      wholePhotoTarget: 'Ein Foto ist eine Stelle der Parzelle; es spricht nicht für die ganze Parzelle.',
      noInterval: 'Kein Intervall: Der Fehler automatischer Werte ist nicht validiert.',
      caution:
        'Ein Deckungsgrad ist eine Schätzung für diese Stelle an diesem Tag. Er stützt ein Urteil und ersetzt keines.',
      measuringNow: 'Wird gemessen …',
      measuringAgain: 'Wird neu gemessen; diese Werte gehören zu den früheren Einstellungen.',
      waiting: 'Wartet auf die Messung.',
      paused: 'Das Messen ist angehalten.',
      notMeasured: 'Nicht gemessen.',
      measureNow: 'Neu messen',
      under: (name, x, y) => `${name} bei ${x}, ${y}`,
      underNothing: 'Hier nicht gemessen',
      details: 'Woher dieser Wert kommt',
      facts: {
        file: 'Datei',
        size: 'Foto',
        sizeValue: (widthPx, heightPx) => `${widthPx} × ${heightPx} px`,
        measured: 'Gemessene Fläche',
        measuredValue: (pixels) => `${formatCount(pixels)} Pixel`,
        scale: 'Maßstab',
        scaleValue: (mm) => `${mm.toPrecision(3)} mm je Pixel`,
        scaleUnknown: 'unbekannt: keine Rahmengröße',
        method: 'Verfahren',
        methodValue: 'automatisch, jedes Pixel nach dem Boden gewichtet, für den es steht',
        methodValueFlat: 'automatisch, jedes Pixel gleich gezählt (kein Rahmen)',
        model: 'Modell',
        decoder: 'Decoder',
        software: 'Programm',
        when: 'Gemessen',
        taken: 'Aufgenommen',
        hash: 'SHA-256 des Fotos',
        neutral: 'Graukarte',
        neutralValue: 'markiert; Farben danach abgeglichen',
        neutralNone: 'keine markiert',
        gapRule: 'Lücken zwischen Blättern',
      },
    },

    frame: {
      title: 'Gemessene Fläche',
      mark: 'Markieren',
      change: 'Neu markieren',
      done: 'Fertig',
      none: 'Kein Rahmen markiert: Das ganze Foto wird gemessen, mit allen Rändern.',
      marked: 'Innerhalb der Innenkante des Rahmens.',
      hint: 'Ziehen Sie die vier Ecken auf die Innenkante des Rahmens.',
      keyHint: 'Pfeiltasten bewegen die gewählte Ecke um ein Pixel, mit Umschalt um zehn.',
      corners: ['Oben links', 'Oben rechts', 'Unten rechts', 'Unten links'],
      handle: (corner, x, y) =>
        `Ecke ${corner.toLowerCase()}, quer ${formatLength(x)}, hinab ${formatLength(y)}`,
      across: 'Quer',
      down: 'Hinab',
      corner: 'Ecke',
      pixels: 'px',
      within: (widthPx, heightPx) =>
        `Pixel des Fotos, ${widthPx} quer und ${heightPx} hinab, von oben links gezählt.`,
      failed: (reason) => `Die Fläche konnte nicht gespeichert werden: ${reason}`,
      cornerField: (corner, direction) => `${corner}, ${direction.toLowerCase()} (px)`,
      size: 'Innenmaß des Rahmens',
      width: 'Breite',
      height: 'Höhe',
      millimetres: 'mm',
      sizeHint: 'Beide leer lassen, wenn die Größe nicht bekannt ist.',
      sizeBoth: 'Breite und Höhe eintragen oder beide leer lassen.',
      clear: 'Das ganze Foto messen',
      undo: 'Rückgängig',
      notMeasured: 'Die Fläche bleibt, wie sie war, bis dies berichtigt ist.',
      notNumber: (value) => `„${value}“ ist keine Zahl. Schreiben Sie sie wie 221.7.`,
      outOfRange: (value, least, most) =>
        `${value} liegt außerhalb: erlaubt ist ${formatLength(least)} bis ${formatLength(most)}.`,
    },

    problems: {
      'worker-died': (attempts) =>
        `Das Messen dieses Fotos brach ${formatCount(attempts)}-mal ohne Antwort ab, meist weil Speicher fehlt. Schließen Sie andere Tabs und messen Sie es neu, oder speichern Sie es kleiner.`,
      unexpected: (name, message) =>
        `Es ging etwas schief, was nicht sein sollte (${name}: ${message}). Messen Sie neu; schlägt auch das fehl, entfernen Sie das Foto und fügen Sie es noch einmal hinzu.`,
      'photo-bytes-missing':
        'Das Foto selbst ist nicht mehr in diesem Browser; er hat es vielleicht gelöscht, um Platz zu schaffen. Entfernen Sie es und fügen Sie die Datei neu hinzu.',
      'storage-full':
        'In diesem Browser ist kein Platz mehr. Entfernen Sie Fotos, die erledigt sind, oder schaffen Sie Platz auf dem Gerät und fügen Sie es neu hinzu.',
      'file-unreadable': (detail) =>
        `Die Datei ließ sich nicht lesen (${detail}). Vielleicht wurde sie verschoben oder ihre Karte entnommen; fügen Sie sie neu hinzu.`,
      'storage-failed': (detail) =>
        `Der Browser konnte das Foto nicht aufbewahren (${detail}). Laden Sie die Seite neu und fügen Sie es noch einmal hinzu.`,
    },

    flags: {
      'no-second-kind':
        'Nur eine Art Gras wurde gefunden; dunkles und helles Gras sind daher nicht getrennt. Sind beide da, urteilen Sie nach Augenschein.',
      'no-vegetation':
        'Kaum lebendes Gras gefunden. Prüfen Sie, ob die gemessene Fläche auf der Parzelle liegt.',
      'no-ground': 'Zwischen den Pflanzen wurde kein offener Boden gefunden.',
      'seedling-stand':
        'Das Gras ist zu blass, um Raigras und Ungras an der Farbe zu unterscheiden, wie in einem jungen Bestand.',
      'unlike-training':
        'Dieses Foto sieht nicht aus wie jene, an denen das Modell angelernt wurde. Prüfen Sie es genau.',
      uncertain: 'Ein großer Teil der Fläche liegt zwischen zwei Klassen. Prüfen Sie genau.',
      'class-without-strokes':
        'Für eine Klasse gibt es keine Striche; sie kann hier nicht gefunden werden und erhält 0 %. Lernen Sie den Termin mit Strichen dieser Klasse an.',
      'model-of-other-classes':
        'Das für diesen Termin angelernte Modell kennt andere Klassen als der Versuch jetzt hat und wurde nicht verwendet: Das Startmodell hat dieses Foto gemessen. Lernen Sie den Termin neu an.',
      'gap-rule-needs-scale':
        'Die Regel des Versuchs für kleine Lücken steht in Millimetern, und die Größe des Rahmens ist nicht bekannt: Jedes Pixel wurde gezählt. Tragen Sie die Rahmengröße ein.',
      'too-few-pixels': 'Die gemessene Fläche hat wenige Pixel; der Wert ist daher grob.',
      'no-colour': 'Das Foto hat kaum Farbe; die Klassen lassen sich nicht sicher unterscheiden.',
      'neutral-unusable':
        'Die Graukarte war nicht brauchbar: überbelichtet, zu dunkel oder außerhalb des Fotos. Die Farben wurden genommen, wie sie sind.',
    },

    storage: {
      opening: 'Ihre Fotos werden geöffnet …',
      heading: {
        blocked: 'Wartet auf einen anderen Tab',
        newer: 'Fotos einer neueren Version',
        failed: 'Die Fotos lassen sich nicht öffnen',
      },
      savedAt: (time) => `Gespeichert ${time}`,
      title: 'Wo die Fotos aufbewahrt werden',
      persisted: 'In diesem Browser; er hat zugesagt, sie nicht von selbst zu löschen.',
      notPersisted:
        'In diesem Browser; er kann sie löschen, wenn der Platz knapp wird. Behalten Sie die Fotodateien; die Seite als App zu installieren verhindert das meist.',
      otherTabs:
        'Swardbook ist auch in einem anderen Tab offen. Beide zeigen dieselben Fotos; arbeiten Sie in einem davon.',
      newer:
        'Diese Fotos wurden von einer neueren Version von Swardbook gespeichert. Diese Version rührt sie nicht an. Öffnen Sie die neuere Version oder speichern Sie die Rohdaten in eine Datei.',
      blocked:
        'Ein anderer Tab hält eine ältere Version offen. Schließen Sie die anderen Tabs mit Swardbook; dieser geht dann von selbst weiter.',
      failed: {
        'insecure-context': () =>
          'Hier lässt sich nichts aufbewahren: Die Seite wurde nicht über https oder von localhost geöffnet, und Browser bieten anderswo keinen sicheren Speicher. Öffnen Sie sie über https.',
        forbidden: () =>
          'Hier lässt sich nichts aufbewahren: Die Einstellungen dieses Browsers oder sein privates Fenster geben Swardbook keinen Speicher. Erlauben Sie dieser Adresse, Daten zu behalten (oft unter Cookies), oder nehmen Sie ein gewöhnliches Fenster, und laden Sie die Seite neu.',
        closed: () =>
          'Der Browser hat den Ort geschlossen, an dem die Fotos liegen: Seine Daten wurden gelöscht, oder das Gerät hat keinen Platz mehr. Was zu sehen ist, lässt sich noch lesen; gespeichert wird nichts mehr. Speichern Sie die Rohdaten, falls noch welche da sind, schaffen Sie Platz auf dem Gerät und laden Sie die Seite neu. Fotos, die fort sind, kommen aus ihren Dateien oder aus einem Archiv zurück.',
        'upgrade-failed': (detail) =>
          `Die Fotos in diesem Browser ließen sich nicht auf diese Version bringen (${detail}). Sie sind, wie sie vorher waren. Speichern Sie die Rohdaten in eine Datei und laden Sie die Seite neu; kommt dasselbe wieder, arbeiten Sie mit der früheren Version weiter.`,
        'not-opened': (detail) =>
          `Die Fotos in diesem Browser lassen sich nicht öffnen (${detail}). Speichern Sie die Rohdaten in eine Datei, schließen Sie alle Fenster dieses Browsers und öffnen Sie die Seite neu.`,
        'write-failed': (detail) =>
          `Die letzte Änderung wurde nicht gespeichert (${detail}). Was vorher gespeichert war, ist noch da. Speichern Sie die Rohdaten in eine Datei und laden Sie die Seite neu.`,
      },
      full: (used) =>
        `Für Swardbook ist kein Platz mehr${used ? `; es belegt hier ${used}` : ''}. Die letzte Änderung wurde nicht gespeichert. Speichern Sie zuerst die Rohdaten in eine Datei, schaffen Sie dann Platz auf dem Gerät und laden Sie die Seite neu. Entfernen Sie vorher hier keine Fotos.`,
      lost: (count, day) =>
        `${photos(count)} ${count === 1 ? 'lag' : 'lagen'} am ${day} in diesem Browser und ${count === 1 ? 'ist' : 'sind'} nicht mehr da. Browser löschen, was Seiten aufbewahren, wenn der Platz knapp wird oder eine Seite lange nicht benutzt wurde. Fügen Sie die Dateien neu hinzu oder öffnen Sie ein Archiv.`,
      mayLose:
        'Die Fotos liegen in diesem Browser, und er hat nicht zugesagt, sie zu behalten. Manche Telefone löschen, was eine Seite aufbewahrt, wenn sie nicht installiert ist und einige Tage nicht benutzt wurde; ein privates Fenster vergisst alles. Legen Sie die Seite auf den Startbildschirm, behalten Sie die Fotodateien und sichern Sie nach jedem Tag ein Archiv.',
      decoderDiffers:
        'Dieser Browser dekodiert Fotos etwas anders als die Referenz. Werte können in den letzten Stellen von denen eines anderen Geräts abweichen; jeder Wert nennt seinen Decoder.',
      unreadable: (count) =>
        `${formatQuantity(count, 'Datensatz', 'Datensätze')} in diesem Browser ${count === 1 ? 'ist' : 'sind'} nicht lesbar. Sie bleiben, wie sie sind, und fehlen in den Listen.`,
      export: 'Rohdaten speichern',
      exportFailed: (reason) => `Das Speichern schlug fehl: ${reason}`,
      nothingToExport: 'In diesem Browser sind keine Daten mehr, die sich speichern ließen.',
      understood: 'Verstanden',
    },

    help: {
      title: 'Tasten und Hilfe',
      open: 'Tasten und Hilfe',
      everywhere: 'Überall',
      here: 'In diesem Bereich',
      key: 'Taste',
      action: 'Was sie tut',
      singleKeys: 'Einzelne Buchstaben und Ziffern wirken als Tasten',
      singleKeysHint: 'Schalten Sie dies aus, wenn Sie das Gerät mit der Stimme steuern.',
      caution:
        'Swardbook stützt ein Urteil und ersetzt keines. Ein Deckungsgrad ist eine Schätzung; er gilt für diesen Ort, diese Saison und diesen Rasen. Was ausgebracht wird, bestimmen die Gebrauchsanleitung des Mittels und die örtlichen Vorschriften.',
      photoKeys:
        'Auf dem Foto: Pfeiltasten verschieben es. Auf einer Ecke: Pfeiltasten bewegen die Ecke um ein Pixel, mit Umschalt um zehn.',
    },

    commands: {
      help: 'Tasten und Hilfe zeigen',
      openPhotos: 'Fotos öffnen',
      goToPhotos: 'Zu den Fotos',
      goToPlan: 'Zum Plan',
      selectAll: 'Alle Fotos auswählen',
      selectNone: 'Auswahl aufheben',
      remove: 'Ausgewählte Fotos entfernen',
      edit: 'Parzelle und Termin der ausgewählten Fotos setzen',
      togglePictures: 'Bilder oder Tabelle',
      pause: 'Messen anhalten oder fortsetzen',
      previous: 'Voriges Foto',
      next: 'Nächstes Foto',
      zoomIn: 'Vergrößern',
      zoomOut: 'Verkleinern',
      fit: 'Das ganze Foto zeigen',
      actualPixels: 'Ein Fotopixel auf ein Bildschirmpixel',
      overlay: 'Klassen auf dem Foto ein oder aus',
      patterns: 'Muster ein oder aus',
      classShown: (name) => `${name} ein oder aus`,
      frame: 'Gemessene Fläche markieren',
      undoFrame: 'Letzte Änderung der Fläche zurücknehmen',
    },

    keys: {
      Delete: 'Entf',
      Escape: 'Esc',
      Enter: 'Eingabe',
      ' ': 'Leertaste',
      shift: 'Umschalt',
      control: 'Strg',
    },

    close: 'Schließen',
    crashed:
      'Dieser Bereich ist mit einem Fehler stehen geblieben. Ihre Fotos sind sicher; laden Sie die Seite neu, um weiterzumachen.',
    reload: 'Neu laden',
  },

  area: {
    frameBy: {
      finder: 'Vom Programm gefunden, noch nicht bestätigt.',
      'finder-confirmed': 'Vom Programm gefunden, von einer Person bestätigt.',
      person: 'Von Hand markiert.',
      file: 'Aus einer Datei übernommen.',
    },
    confidence: (confidence) =>
      `Sicherheit ${confidence.toFixed(2)} von 1: wie gut die am schlechtesten sichtbare Seite zu sehen ist; keine Wahrscheinlichkeit.`,
    wholeByChoice: 'Das ganze Foto, so gewählt: mit allen Rändern.',
    inOutline: 'In einem von Hand gezogenen Umriss; jedes Pixel zählt gleich.',
    offered:
      'Vielleicht ist hier ein Rahmen; sicher genug, um ihn ungefragt zu verwenden, ist es nicht. Bis Sie entscheiden, wird das ganze Foto gemessen.',
    notLooked: 'Kein Rahmen markiert: Das ganze Foto wird gemessen, mit allen Rändern.',
    sizeMissing:
      'Die Größe des Rahmens ist nicht bekannt: Schärfe und Maßstab lassen sich nicht beurteilen, und nichts lässt sich in mm sagen.',
    proposal: {
      command: 'Den gefundenen Rahmen bestätigen',
      unconfirmed:
        'Das Programm hat diesen Rahmen gefunden und darin gemessen. Läuft die Linie an seiner Innenkante?',
      offered:
        'Vielleicht ist hier ein Rahmen (gestrichelt); gemessen wurde das ganze Foto. Ist dies seine Innenkante?',
      change: 'Ecken verschieben',
    },
    confirm: 'Bestätigen',
    useOffered: 'Diesen Rahmen verwenden',
    wholePhoto: 'Das ganze Foto messen',
    outline: 'Umriss zeichnen',
    outlineTitle: 'Umriss',
    outlineAgain: 'Umriss neu zeichnen',
    sizeForDate: (day) => `Für alle Fotos vom ${formatDay(day, 'short')} verwenden`,
    confirmAll: 'Rahmen bestätigen',
    confirmed: (count) => `${formatQuantity(count, 'Rahmen', 'Rahmen')} bestätigt.`,

    ignored: 'Ausgelassene Flächen',
    ignoredNone:
      'Keine. Ein Fuß, ein Etikett, ein Schlauch im Rahmen ist kein Rasen: Ziehen Sie darum herum.',
    ignoredCount: (count) =>
      `${formatQuantity(count, 'Fläche ist', 'Flächen sind')} vom gemessenen Boden ausgenommen.`,
    ignoredName: (index) => `Fläche ${formatCount(index + 1)}`,
    draw: 'Fläche zeichnen',
    drawHint:
      'Tippen Sie Ecke um Ecke um das, was kein Rasen ist; schließen Sie, indem Sie wieder auf die erste Ecke tippen.',
    outlineHint:
      'Tippen Sie Ecke um Ecke um den Boden, der gemessen werden soll; schließen Sie, indem Sie wieder auf die erste Ecke tippen.',
    drawKeys:
      'Mit Tasten: ein Quadrat hinzufügen und seine Ecken mit den Pfeiltasten verschieben; Entf nimmt eine Ecke weg.',
    addSquare: 'Quadrat hinzufügen',
    close: 'Umriss schließen',
    cancel: 'Abbrechen',
    chosen: (name) => `${name} ändern`,
    remove: 'Entfernen',
    removeNamed: (name) => `${name} entfernen`,
    corner: (name, index, x, y) =>
      `${name}, Ecke ${formatCount(index + 1)}, quer ${formatLength(x)}, hinab ${formatLength(y)}`,
    whole: (name) => `${name} verschieben`,
    pointsSoFar: (count) => `Bisher ${formatQuantity(count, 'Ecke', 'Ecken')}.`,

    card: 'Graukarte',
    cardBy: {
      finder: 'Vom Programm gefunden und verwendet, noch nicht bestätigt.',
      'finder-confirmed': 'Vom Programm gefunden, von einer Person bestätigt.',
      person: 'Von Hand markiert.',
      file: 'Aus einer Datei übernommen.',
    },
    cardNone: 'Keine gefunden. Die Farben gelten, wie die Kamera sie schrieb.',
    cardNotLooked: 'Keine markiert. Sie wird innerhalb des Rahmens gesucht.',
    cardTakenAway: 'Keine, so gewählt. Die Farben gelten, wie die Kamera sie schrieb.',
    cardUnusable:
      'Die Karte ist nicht brauchbar: überbelichtet, zu dunkel oder außerhalb des Fotos. Die Farben gelten, wie sie sind.',
    cardMark: 'Zwei Ecken markieren',
    cardHint: 'Tippen Sie auf zwei gegenüberliegende Ecken eines Rechtecks, das ganz auf der Karte liegt.',
    cardSecond: 'Nun die gegenüberliegende Ecke.',
    cardField: (side) => `${['Links', 'Oben', 'Breite', 'Höhe'][side]} (px)`,
    cardSides: ['Links', 'Oben', 'Breite', 'Höhe'],
    cardTake: 'Wegnehmen',
    cardNotOne: 'Dies ist keine Karte',
    cardFields: 'Das Rechteck in Zahlen',
    cardSet: 'Rechteck setzen',
    balance: {
      caption: 'Was der Abgleich nach der Karte bewirkt, in linearem Licht',
      channel: 'Kanal',
      channels: ['Rot', 'Grün', 'Blau'],
      gain: 'Verstärkung',
      before: 'Karte vorher',
      after: 'Karte nachher',
      swatchBefore: 'vorher',
      swatchAfter: 'nachher',
      gainValue: (gain) => `× ${gain.toFixed(3)}`,
      capped:
        'Ein Kanal bräuchte eine Verstärkung außerhalb von 0.5 bis 2 und wurde dort gehalten: Dies ist kaum eine Graukarte.',
    },

    straight: {
      command: 'Entzerren: der Rahmen, wie man ihn genau von oben sieht',
      word: 'Entzerren',
      stage: (name) => `Foto ${name} innerhalb des Rahmens, wie genau von oben gesehen`,
      noScale: 'Ohne Größe des Rahmens gibt es keinen Maßstab.',
      onlyLooking: 'Zum Ansehen: Gemessen wird in den Pixeln des Fotos.',
    },

    dates: {
      command: 'Termine dieser Stelle vergleichen',
      word: 'Termine',
      title: (plot) => `Parzelle ${plot} über die Termine`,
      place: (place) => `Stelle ${formatCount(place)}`,
      back: 'Zurück zum Foto',
      none: 'Es braucht zwei Termine dieser Parzelle und Stelle mit markiertem Rahmen. Geben Sie den Fotos Parzelle und Termin und markieren Sie ihre Rahmen.',
      before: 'Vorher',
      after: 'Nachher',
      show: 'Anzeigen',
      sideBySide: 'Nebeneinander',
      flip: 'Übereinander',
      flipNow: 'Wechseln',
      shown: (day) => `Zu sehen: ${formatDay(day)}`,
      classes: 'Klassen',
      turn: 'Späteres Foto um 90° drehen',
      turned: (quarters) => `Um ${formatCount(90 * quarters)}° gedreht`,
      tableCaption: 'Änderung der Deckung zwischen den beiden Terminen, nach Feldern',
      tableName: 'Änderung nach Klassen',
      scale: (patchMm, columns, rows) =>
        patchMm === null
          ? `Nach Feldern, ${columns} × ${rows} im Rahmen; nicht nach Pixeln.`
          : `Nach Feldern von ${formatLength(patchMm)} mm, ${columns} × ${rows} davon; nicht nach Pixeln.`,
      why: 'Ein von Hand zurückgelegter Rahmen liegt um Millimeter anders, und Blätter bewegen sich: Was einzelne Pixel taten, lässt sich nicht sagen. Kleine Änderungen einzelner Felder sind Lage und Klassifikation ebenso wie Wachstum. Die Werte sind die der automatischen Masken.',
      className: 'Klasse',
      coverBefore: 'Vorher, %',
      coverAfter: 'Nachher, %',
      change: 'Änderung, Punkte',
      up: 'Felder mit mehr',
      down: 'Felder mit weniger',
      same: 'Etwa gleich',
      gain: 'Zuwachs, Punkte',
      loss: 'Verlust, Punkte',
      upDown: (points) => `Mehr und weniger heißt: um ${formatCount(points)} Punkte oder mehr.`,
      leftOut: (count) =>
        `${formatQuantity(count, 'Feld ist', 'Felder sind')} ausgelassen: Von diesem Boden ist an einem der Termine zu wenig gemessen.`,
      nothing: 'Kein Feld ist an beiden Terminen gemessen.',
      working: 'Die Felder werden verglichen …',
      waiting: 'Eines der Fotos ist noch zu messen.',
      otherClasses:
        'Die beiden Fotos wurden mit verschiedenen Klassen gemessen: Messen Sie sie neu, um sie zu vergleichen.',
    },

    look: {
      filter: 'Zeigen',
      all: (count) => `Alle (${formatCount(count)})`,
      needsLook: (count) => `Ansehen (${formatCount(count)})`,
      nothing: 'Kein Foto ist anzusehen: Jeder Rahmen ist bestätigt, und keines sollte wiederholt werden.',
      reasons: {
        'frame-unconfirmed': 'Rahmen zu bestätigen',
        'frame-offered': 'Rahmen zweifelhaft',
        'frame-missing': 'Kein Rahmen',
        retake: 'Foto wiederholen',
        failed: 'Nicht gemessen',
      },
    },
  },

  teach: {
    command: 'Mit Strichen anlernen',
    word: 'Anlernen',
    title: (date) => (date === null ? 'Fotos ohne Termin anlernen' : `${formatDay(date)} anlernen`),
    done: 'Fertig',
    doneLabel: 'Anlernen verlassen',
    opening: 'Wird geöffnet …',
    stage: (name) =>
      `Foto ${name}, zum Bemalen. Pfeiltasten bewegen den Pinsel, mit Umschalt zehnmal so weit; die Eingabetaste setzt einen Punkt.`,
    intro:
      'Malen Sie von jeder Klasse einige Striche, wo Sie sicher sind, auch vom offenen Boden. Das Foto folgt, und die anderen Fotos des Termins ebenso.',
    readingPhotos: 'Die Fotos werden gelesen …',
    classes: 'Klasse, die gemalt wird',
    count: (here, inAll) =>
      here === inAll ? strokes(inAll) : `${strokes(inAll)}, ${formatCount(here)} auf diesem Foto`,
    tools: 'Werkzeug',
    brush: 'Pinsel',
    eraser: 'Radierer',
    move: 'Verschieben',
    size: 'Pinselradius',
    sizeField: 'Pinselradius in Fotopixeln',
    pixels: 'px',
    undo: 'Letzten Strich zurücknehmen',
    redo: 'Wiederherstellen',
    smaller: 'Kleinerer Pinsel',
    larger: 'Größerer Pinsel',
    paintClass: (name) => `${name} malen`,
    stamped: (name, x, y) => `${name} bei ${x}, ${y}`,
    cursorAt: (x, y) => `Pinsel bei ${x}, ${y}`,
    agreementTitle: 'Auf Ihren Strichen',
    agreement: (agreement, cells) =>
      `${formatPercent(agreement)} % von ${formatCount(cells)} Stellen werden so angesprochen, wie Sie sie gemalt haben; jeder Strich ist dabei nach den anderen beurteilt. ${AGREEMENT_IS_NO_ACCURACY}`,
    noAgreement:
      'Malen Sie zwei oder mehr Striche jeder Klasse; dann lassen sich einige zurückhalten, um die anderen zu prüfen.',
    withoutStrokes: (names) =>
      `Keine Striche für ${formatList(names)}: Das Modell nennt nie, was ihm nicht gezeigt wurde.`,
    doubtTitle: 'Genau ansehen',
    doubtHint: 'Einige Striche auf diesem Foto helfen am meisten.',
    unusable: 'Striche, die nichts lehren',
    strip: (count) => `${photos(count)} dieses Termins`,
    startHere: 'Hier beginnen',
    startWith: (plots, { blocks, treatments }) => {
      const groups = [
        ...(blocks.of > 1 ? [`${blocks.covered} von ${formatCount(blocks.of)} Blöcken`] : []),
        ...(treatments.of > 1
          ? [`${treatments.covered} von ${formatCount(treatments.of)} Prüfgliedern`]
          : []),
      ];
      return `Beginnen Sie mit ${formatList(plots)}: ${groups.length > 0 ? `Sie stehen für ${formatList(groups)}, und ihr` : 'Ihr'} Licht und ihre Farben liegen weit auseinander.`;
    },
    stripOrder: 'Reihenfolge',
    byPlot: 'Nach Parzelle',
    byDoubt: 'Zweifelhafte zuerst',
    doubtful: (count) => `${photos(count)} genau anzusehen`,
    tile: (count, cover, reasons) =>
      [...(count > 0 ? [`${strokes(count)}.`] : []), cover, ...reasons].join(' '),
    unread: 'Noch nicht gelesen.',
    unreadable: 'Nicht lesbar.',
    measureAll: (count) => `Für alle ${photos(count)} dieses Termins verwenden`,
    measureAllNoDate: (count) => `Für alle ${photos(count)} ohne Termin verwenden`,
    used: (count, of) =>
      count === of
        ? `Alle ${photos(of)} sind mit diesem Modell gemessen.`
        : `${formatCount(count)} von ${photos(of)} sind mit diesem Modell gemessen.`,
    usedOther: (count) => `${photos(count)} ${count === 1 ? 'ist' : 'sind'} mit früheren Strichen gemessen.`,
    queued: (count) => `${photos(count)} in die Warteschlange gestellt.`,
    startModel: 'Zurück zum Startmodell',
    takeOverTitle: 'Striche anderer Termine',
    takeOver: (date, count) => `${formatDay(date)}: ${strokes(count)}`,
    takeOverHint:
      'Sie bleiben auf ihren Fotos und lehren auch diesen Termin. Licht und Jahreszeit sind andere: Malen Sie auch Striche dieses Termins.',
    trouble: (detail) =>
      `Das Anlernen brach ab (${detail}), meist weil Speicher fehlt. Ihre Striche sind aufbewahrt. Schließen Sie andere Tabs, verlassen Sie das Anlernen und kommen Sie wieder.`,
    treatments: 'Striche nach Prüfglied',
    ofTreatment: (treatment, count, painted, of) =>
      `${treatment}: ${strokes(count)} auf ${formatCount(painted)} von ${photos(of)}`,
    caution:
      'Was angelernt ist, stützt ein Urteil. Sehen Sie die als zweifelhaft markierten Fotos durch und prüfen Sie mit Punkten, bevor Sie Prüfglieder vergleichen.',
  },

  lopsidedTeachingText: (warning) => {
    switch (warning.code) {
      case 'treatments-left-out':
        return `Auf Fotos von ${formatList(warning.treatments)} ist nichts gemalt. Anders behandelter Rasen kann anders aussehen: Malen Sie auf einem Foto jedes Prüfglieds.`;
      case 'strokes-uneven':
        return `${warning.most.treatment} hat ${strokes(warning.most.strokes)}, ${warning.least.treatment} nur ${formatCount(warning.least.strokes)}. Malen Sie in allen Prüfgliedern gleich viel, sonst wird der Vergleich schief.`;
    }
  },

  AGREEMENT_IS_NO_ACCURACY,

  strokeProblemText: (problem, nameOf) => {
    switch (problem.code) {
      case 'stroke-outside':
        return `Strich ${problem.stroke + 1} (${nameOf(problem.classId)}) liegt außerhalb der gemessenen Fläche und lehrt nichts. Malen Sie innerhalb des Rahmens.`;
      case 'stroke-partly-outside':
        return `Strich ${problem.stroke + 1} (${nameOf(problem.classId)}) verlässt die gemessene Fläche; ${formatQuantity(problem.pixels, 'Pixel davon lehrt', 'Pixel davon lehren')} nichts.`;
      case 'stroke-class-unknown':
        return `Strich ${problem.stroke + 1} hat die Klasse „${problem.classId}“, die es nicht gibt. Er lehrt nichts.`;
      case 'cells-contradict':
        return `${formatQuantity(problem.cells, 'Stelle ist', 'Stellen sind')} mit zwei Klassen bemalt und ${problem.cells === 1 ? 'lehrt' : 'lehren'} nichts. Radieren Sie eine der beiden.`;
    }
  },

  teachingProblemText: (problem, nameOf) => {
    switch (problem.code) {
      case 'no-strokes':
        return 'Kein Strich liegt in einer gemessenen Fläche. Malen Sie zwei oder mehr Klassen auf ein Foto.';
      case 'one-class-only':
        return `Nur ${nameOf(problem.classId)} ist gemalt. Malen Sie eine zweite Klasse, damit es etwas zu unterscheiden gibt.`;
    }
  },

  coverModelProblemText: (problem) => {
    switch (problem.code) {
      case 'not-json':
        return `Dies ist kein gültiges JSON: ${problem.detail}. Die Datei ist beschädigt; speichern Sie das Modell neu.`;
      case 'other-type':
        return `„type“ ist ${problem.met}; in einer Modelldatei steht „cover-model“.`;
      case 'bad-version':
        return `„version“ ist ${problem.met}; erlaubt ist eine ganze Zahl ab 1.`;
      case 'newer-version':
        return `Das Modell hat Version ${problem.met}; dieses Programm liest bis ${problem.newest}. Nehmen Sie eine neuere Version des Programms.`;
      case 'other-feature-set':
        return `Das Modell wurde an den Merkmalen ${problem.met} angelernt; dieses Programm berechnet „${problem.known}“. Lernen Sie es mit seinen Strichen neu an.`;
      case 'bad-field':
        return `„${problem.field}“ ist ${problem.met}, was nicht sein kann. Die Datei ist beschädigt; speichern Sie das Modell neu.`;
      case 'fewer-than-two-classes-taught':
        return `Dem Modell wurde ${problem.met === 0 ? 'keine Klasse' : 'nur eine Klasse'} gezeigt. Zeigen Sie ihm zwei oder mehr.`;
    }
  },

  doubtReasonText: (reason, nameOf) => {
    switch (reason.code) {
      case 'class-differs': {
        const difference = {
          darker: 'dunkler',
          lighter: 'heller',
          yellower: 'gelber',
          bluer: 'bläulicher',
          greener: 'grüner',
          redder: 'röter oder brauner',
        }[reason.difference];
        return `${nameOf(reason.classId)} ist hier ${difference} als alles, was gemalt wurde.`;
      }
      case 'photo-differs':
        return 'Pflanzen und Boden dieses Fotos sehen anders aus als jene, die bemalt wurden.';
      case 'light-differs':
        return 'Das Licht dieses Fotos (Sonne, Schatten) ist anders als auf den bemalten Fotos.';
      case 'unsteady-shares':
        return `Der Anteil von ${nameOf(reason.classId)} hängt an wenigen Strichen: Lässt man einige weg, ändert er sich um etwa ${formatPercent(reason.value)} Punkte.`;
      case 'classes-overlap':
        return 'Ein großer Teil dieses Fotos liegt zwischen Klassen.';
    }
  },

  correct: {
    command: 'Von Hand korrigieren',
    word: 'Korrigieren',
    title: 'Von Hand korrigieren',
    done: 'Fertig',
    doneLabel: 'Korrigieren verlassen',
    opening: 'Wird geöffnet …',
    noMask: 'Die Klassen dieses Fotos werden noch berechnet. Das Korrigieren beginnt, wenn sie da sind.',
    stage: (name) =>
      `Klassen von Foto ${name}, zum Korrigieren. Pfeiltasten bewegen den Zeiger, mit Umschalt zehnmal so weit; die Eingabetaste benutzt dort das Werkzeug.`,
    automaticStage: (name) => `Foto ${name}, wie berechnet`,
    tools: 'Werkzeug',
    brush: 'Pinsel',
    outline: 'Umriss',
    patch: 'Fleck',
    likeness: 'Gleiche Farben',
    move: 'Verschieben',
    classes: 'Was gemalt wird',
    paint: (name) => `${name} malen`,
    asComputed: 'Wie berechnet',
    asComputedHint: 'nimmt Korrekturen zurück',
    automaticShare: (coverFraction) => `berechnet ${formatPercent(coverFraction)} %`,
    onlyOver: 'Nur über',
    anyClass: 'jeder Klasse',
    changeEverywhere: (from, to) => `Alles von ${from} zu ${to} ändern`,
    size: 'Pinselradius',
    sizeField: (unit) =>
      unit === 'px' ? 'Pinselradius in Fotopixeln' : 'Pinselradius in Millimetern am Boden',
    unit: 'Einheit des Radius',
    smaller: 'Kleinerer Pinsel',
    larger: 'Größerer Pinsel',
    outlineDoes: 'Innerhalb des Umrisses',
    paintInside: 'Malen',
    smoothInside: 'Glätten',
    smoothRadius: 'Glättungsradius',
    smoothHint:
      'Jedes Pixel nimmt die häufigste Klasse seiner Umgebung. Flecken kleiner als der Radius verschwinden, und die Deckung kann sich verschieben.',
    closeOutline: 'Umriss schließen',
    dropOutline: 'Umriss verwerfen',
    outlineHint: 'Ziehen Sie darum herum, oder tippen Sie Ecke um Ecke und schließen Sie auf der ersten.',
    patchHint:
      'Tippen Sie auf einen Fleck: Alles, was mit ihm zusammenhängt und seine Klasse hat, wird gemalt.',
    tolerance: 'Toleranz',
    stopsAtEdges: 'An scharfen Kanten halten',
    likenessHint:
      'Tippen Sie auf eine Stelle: Was ihre Farbe hat und mit ihr zusammenhängt, wird gezeigt. Stellen Sie ein, wie weit es geht, und wenden Sie es an.',
    apply: 'Anwenden',
    cancel: 'Abbrechen',
    covers: (pixels) => `${formatCount(pixels)} Pixel`,
    undo: 'Letzte Handlung zurücknehmen',
    redo: 'Wiederherstellen',
    view: 'Was gezeigt wird',
    views: { classes: 'Klassen', outlines: 'Umrisse', changes: 'Änderungen', photo: 'Foto' },
    nextView: 'Nächste Ansicht',
    bare: 'Bloßes Foto, solange gehalten',
    beside: 'Neben den berechneten Klassen',
    besideWord: 'Daneben',
    magnifier: 'Lupe',
    map: 'Sichtbarer Teil des Fotos; antippen, um dorthin zu gehen',
    working: 'Wird berechnet …',
    storing: 'Wird gespeichert …',
    stored: (count) => (count === 0 ? 'Noch nichts korrigiert.' : `${gestures(count)} gespeichert.`),
    cursorAt: (x, y) => `Zeiger bei ${x}, ${y}`,
    painted: (name, x, y) => `${name} bei ${x}, ${y}`,
    cornerAt: (count, x, y) => `Ecke ${count} bei ${x}, ${y}`,
    correctedTitle: 'Von Hand korrigiert',
    table: {
      caption: 'Deckung, wie berechnet und wie korrigiert',
      class: 'Klasse',
      computed: 'Berechnet',
      corrected: 'Korrigiert',
    },
    percent: (coverFraction) => `${formatPercent(coverFraction)} %`,
    changedShare: (fraction) => `${formatPercent(fraction)} % des gemessenen Bodens wurden geändert.`,
    recordTitle: 'Protokoll',
    by: 'Korrigiert von',
    byHint: 'Ihr Name oder Kürzel, mit jeder Handlung aufbewahrt.',
    changed: ({ changedFraction, confirmedFraction }) =>
      `Von Hand geändert: ${formatPercent(changedFraction)} % des gemessenen Bodens` +
      (confirmedFraction > 0 ? `; bestätigt: ${formatPercent(confirmedFraction)} %.` : '.'),
    pair: (from, to, groundFraction) => `${from} zu ${to}: ${formatPercent(groundFraction)} %`,
    difference: (points) => `${formatSigned(points * 100)} Punkte`,
    reason: 'Warum (freiwillig)',
    reasonHint: 'z. B. Reif auf den Blättern. Gilt für die Handlungen, die noch keinen Grund haben.',
    keepReason: 'Grund behalten',
    gestureNames: {
      brush: 'Pinsel',
      outline: 'Umriss',
      patch: 'Fleck',
      likeness: 'Gleiche Farben',
      smooth: 'Glätten',
      'change-class': 'Klasse überall geändert',
    },
    gesture: (name, pixels) => `${name}, ${formatCount(pixels)} px`,
    gesturesOf: (count) => `Die letzten von ${formatQuantity(count, 'Handlung', 'Handlungen')}`,
    noName: 'kein Name',
    teach: 'Mit diesen Korrekturen anlernen',
    teachHint:
      'Legt einzelne Pixel mit Klasse, gezogen aus Ihren Korrekturen, zu den Strichen, die diesen Termin anlernen. Sehen Sie Füllungen vorher an: Sie zählen wie Striche.',
    taught: (count) =>
      count === 0
        ? 'Noch nichts, womit sich anlernen ließe.'
        : `${formatQuantity(count, 'Pixel', 'Pixel')} zu den Strichen dieses Termins gelegt.`,
    byTreatment: 'Nach Prüfglied',
    moreWarnings: (count) => `${formatCount(count)} weitere zu bedenken`,
    treatmentCode: (code) => `Prüfglied ${code}`,
    treatmentRow: (name, share, corrected, all) =>
      `${name}: ${share} % geändert, ${formatCount(corrected)} von ${photos(all)} korrigiert`,
    hidden: 'Die Prüfglieder stehen unter gemischten Codes, damit die Hand nicht weiß, was sie korrigiert.',
    reveal: 'Namen der Prüfglieder zeigen',
    revealHint: 'Dass Sie nachgesehen haben, steht im Protokoll.',
    notices: {
      'other-tab-was-first':
        'Ein anderer Tab hat dieses Foto zuerst geändert. Ihre letzte Handlung wurde nicht gespeichert; gezeigt wird, was gespeichert ist. Malen Sie noch einmal, falls es fehlt.',
      'changed-in-other-tab':
        'Ein anderer Tab hat die Korrekturen dieses Fotos geändert. Sie sind jetzt zu sehen.',
      'not-stored':
        'Der Browser konnte Ihre letzte Handlung nicht speichern. Gezeigt wird, was gespeichert ist; schaffen Sie Platz auf dem Gerät und malen Sie noch einmal.',
      'nothing-there': 'Dort ist nichts gemessen. Wählen Sie eine Stelle innerhalb des Rahmens.',
    },
    workerStopped: (detail) =>
      `Das Füllen wurde abgebrochen (${detail}). Nichts ist geändert; versuchen Sie es noch einmal oder mit einer kleineren Fläche.`,
    dismiss: 'Schließen',
    caution:
      'Korrekturen werden aufgezeichnet und neben dem Berechneten gezeigt. Korrigieren Sie alle Prüfglieder mit gleicher Sorgfalt.',
  },

  review: {
    command: 'Masken dieses Termins durchsehen',
    word: 'Durchsicht',
    title: (day) => `Durchsicht ${formatDay(day)}`,
    date: 'Boniturtermin',
    opening: 'Wird geöffnet …',
    nothing:
      'Noch hat kein gemessenes Foto einen Boniturtermin. Geben Sie den Fotos ihren Termin; dann sehen Sie sie hier durch.',
    stage: (name) => `Foto ${name} mit seinen Klassen`,
    tools: 'Urteil',
    accept: 'Annehmen',
    correct: 'Korrigieren',
    skip: 'Überspringen',
    previous: 'Voriges Foto der Reihe',
    next: 'Nächstes Foto der Reihe',
    nextOpen: 'Nächstes Foto, das niemand angesehen hat',
    withdraw: 'Urteil zurücknehmen',
    progress: (done, all) => `${formatCount(done)} von ${photos(all)} angesehen`,
    unmeasured: (count) =>
      `${photos(count)} dieses Termins ${count === 1 ? 'lässt' : 'lassen'} sich nicht durchsehen: nicht gemessen.`,
    allDone: 'Alle Fotos dieses Termins sind angesehen.',
    by: 'Durchgesehen von',
    byHint: 'Ihr Name oder Kürzel, mit jedem Urteil aufbewahrt.',
    queue: 'Die Reihe, das Unsicherste zuerst',
    verdicts: { accepted: 'angenommen', corrected: 'korrigiert', skipped: 'übersprungen' },
    verdictBy: (verdict, by, at) => `${verdict}${by ? ` von ${by}` : ''}, ${formatInstant(at)}`,
    outdated: 'Der Wert hat sich seitdem geändert: Sehen Sie noch einmal hin.',
    notYet: 'nicht angesehen',
    doubted: 'zweifelhaft',
    unlike: (fraction) =>
      `Seine Deckung weicht auf ${formatPercent(fraction)} % des Bodens von der Mitte der Fotos dieses Termins ab.`,
    why: 'Warum es hier steht',
    retake: 'Das Foto sollte wiederholt werden: Zum Messen taugt es nicht.',
    noDoubt: 'Kein eigener Zweifel.',
    honest:
      'Diese Reihe beginnt mit dem, was am schlechtesten aussieht, und sagt daher nichts über die anderen: Fotos für Punktzählungen werden ausgelost, nie hier entnommen.',
    signOffTitle: 'Abzeichnen',
    signOffIntro: (day) =>
      `Abzeichnen versiegelt ${formatDay(day)}: Fotos, Modelle, Einstellungen und Korrekturen erhalten eine Prüfsumme, und jede spätere Änderung wird sichtbar.`,
    signOffPart: (done, all) =>
      `Nur ${formatCount(done)} von ${photos(all)} sind angesehen. Sie können trotzdem abzeichnen; das Protokoll sagt es.`,
    unreadable: (names) =>
      `Die Korrekturen von ${formatList(names)} sind nicht lesbar; der Termin kann daher nicht versiegelt werden. Öffnen Sie das Foto zum Korrigieren: Dort steht, woran es liegt und was hilft.`,
    signOff: (day) => `${formatDay(day, 'short')} abzeichnen`,
    nameFirst: 'Tragen Sie unter „Durchgesehen von“ Ihren Namen ein, um abzuzeichnen.',
    signed: (by, at) => `Abgezeichnet von ${by}, ${formatInstant(at)}.`,
    amended: (by, at, reason) => `Nachtrag von ${by}, ${formatInstant(at)}: ${reason}`,
    signedPart: (done, all) => `${formatCount(done)} von ${photos(all)} waren angesehen.`,
    unchanged: 'Seitdem unverändert.',
    changed: 'Seit dem Abzeichnen geändert.',
    changedHint:
      'Ein Foto, ein Modell, eine Einstellung oder eine Korrektur ist nicht mehr, was abgezeichnet wurde. Ein Nachtrag sagt, warum.',
    hash: 'SHA-256',
    reason: 'Grund des Nachtrags',
    amend: 'Nachtrag abzeichnen',
    caution:
      'Ein abgezeichneter Termin ist, was an diesem Tag gesehen wurde, kein Beweis, dass es stimmt. Prüfen Sie ihn mit einer Punktzählung.',
  },

  estimateTargetText: (target) => {
    switch (target) {
      case 'frame':
        return 'den Boden in diesem Rahmen';
      case 'plot':
        return 'die ganze Parzelle';
      case 'treatment-mean':
        return 'das Mittel der Parzellen des Prüfglieds';
    }
  },

  samplingDesignText: (design) => {
    switch (design.kind) {
      case 'regular-grid':
        return `Raster von ${design.columns} × ${design.rows}, zufälliger Anfang`;
      case 'jittered-grid':
        return `${design.columns} × ${design.rows} Zellen, in jeder ein zufälliger Punkt`;
      case 'simple-random':
        return formatQuantity(design.points, 'zufälliger Punkt', 'zufällige Punkte');
      case 'transect-lines':
        return `${formatQuantity(design.lines, 'Linie', 'Linien')} mit ${formatQuantity(design.pointsPerLine, 'Punkt', 'Punkten')} in gleichem Abstand`;
    }
  },

  spacingAdviceText: ({ code, mostPoints, spacingMm, plantDiameterMm }) => {
    const [spacing, plant] = [formatLength(spacingMm), formatLength(plantDiameterMm)];
    switch (code) {
      case 'wide-enough':
        return `Die Punkte stehen ${spacing} mm auseinander, Pflanzen sind etwa ${plant} mm breit: gut.`;
      case 'closer-than-plants':
        return (
          `Die Punkte stehen ${spacing} mm auseinander, enger als eine Pflanze breit ist (${plant} mm); Nachbarn wiederholen einander meist. ` +
          (mostPoints > 0
            ? `Höchstens ${formatQuantity(mostPoints, 'Punkt passt', 'Punkte passen')} im Abstand einer Pflanze in diesen Rahmen; weitere Rahmen sagen mehr als weitere Punkte.`
            : 'Der Rahmen ist kleiner als eine Pflanze: Nehmen Sie einen größeren oder mehrere.')
        );
      case 'chance-neighbours':
        return `Jeder Punkt steht für ein Quadrat von ${spacing} mm. Einige fallen zufällig auf dieselbe Pflanze (${plant} mm); das Intervall rechnet damit.`;
    }
  },

  gapRuleForPointsText: (rule) =>
    rule.kind === 'every-pixel'
      ? 'Sprechen Sie an, was genau unter der Marke liegt, auch kleine Lücken zwischen Blättern.'
      : `Boden gilt als offen, wo um die Marke ein Kreis von ${formatLength(rule.smallerThanMm)} mm hineinpasst. In einer engeren Lücke sprechen Sie den Bewuchs an, der der Marke am nächsten liegt.`,

  belowText: (belowFraction) => {
    // as in the English catalogue: rounded up to the digit that formatPercent shows
    const step = belowFraction > 0.099 ? 100 : 1000;
    return `unter ${formatPercent(Math.min(1, Math.ceil(belowFraction * step - 1e-9) / step))} %`;
  },

  estimateNoteText: ({ code, count }) => {
    const number = count ?? 0;
    switch (code) {
      case 'no-points-judged':
        return 'Kein Punkt ist beurteilt, daher gibt es keinen Wert.';
      case 'frames-without-points':
        return `${formatQuantity(number, 'Rahmen', 'Rahmen')} ohne Urteil ausgelassen.`;
      case 'one-frame':
        return 'Nur ein Rahmen: Wie sehr sich Rahmen dieser Parzelle unterscheiden, ist unbekannt; der Wert hat daher kein Intervall für die Parzelle. Ein zweiter Rahmen gibt eines.';
      case 'lines-without-points':
        return `${formatQuantity(number, 'Linie', 'Linien')} ohne Urteil ausgelassen.`;
      case 'one-line':
        return 'Nur eine Linie: Wie sehr sich Linien dieses Rahmens unterscheiden, ist unbekannt; der Wert hat daher kein Intervall. Eine zweite Linie gibt eines.';
      case 'one-plot':
        return 'Nur eine Parzelle: Der Wert hat kein Intervall für das Prüfglied.';
      case 'plots-without-points':
        return `${formatQuantity(number, 'Parzelle', 'Parzellen')} ohne Urteil ausgelassen.`;
      case 'no-spread-seen':
        return `Für ${formatQuantity(number, 'Klasse', 'Klassen')} gar keine Streuung zwischen Rahmen oder Parzellen: Das Intervall beruht dann auf der Zahl der Punkte und ist vielleicht zu schmal.`;
      case 'indeterminate-many':
        return `An ${number} % der Punkte war keine Ansprache möglich. Der Wert spricht von den anderen; der Bereich daneben zeigt, was jene Punkte ändern könnten.`;
    }
  },

  referencePhotosText: ({ treatment, photos: drawn, drawnFrom, withStrokes, inReviewQueue }, asked) => {
    const left = [
      ...(withStrokes > 0 ? [`${withStrokes} mit gemalten Strichen`] : []),
      ...(inReviewQueue > 0 ? [`${inReviewQueue} zweifelhaft oder durchgesehen`] : []),
    ];
    const short =
      drawn.length < asked
        ? ` Verlangt waren ${asked}: Malen Sie auf weniger Fotos oder nehmen Sie mehr auf.`
        : '';
    const aside = left.length > 0 ? ` Ausgelassen, und nicht mit gemeint: ${formatList(left)}.` : '';
    return `Prüfglied ${treatment}: ${photos(drawn.length)} ausgelost aus ${drawnFrom}.${short}${aside}`;
  },

  adjustmentRefusalText: (refusal) => {
    switch (refusal.code) {
      case 'no-points':
        return 'Kein Punkt ist beurteilt, die Maske lässt sich daher nicht prüfen. Sprechen Sie zuerst Punkte an.';
      case 'stratum-too-few-points':
        return `Zu wenige Punkte für ${formatList(refusal.classes)}: Mindestens ${refusal.fewest} sind nötig. Sprechen Sie mehr Punkte an oder nehmen Sie den Wert der Maske oder der Punkte allein.`;
      case 'too-few-photos':
        return `Punkte sind nur auf ${formatQuantity(refusal.photos, 'Foto', 'Fotos')} angesprochen; mindestens ${refusal.fewest} sind nötig, um zu wissen, wie sehr sich Fotos unterscheiden.`;
      case 'class-never-observed':
        return `Kein Punkt wurde als ${formatList(refusal.classes)} angesprochen; wie die Maske damit umgeht, ist daher unbekannt. Sprechen Sie Punkte auf Fotos an, die es zeigen.`;
      case 'class-never-mapped':
        return `Die Maske gab keinen Punkt an ${formatList(refusal.classes)}; dessen Deckung lässt sich daher nicht aus der Maske lösen. Nehmen Sie die Punkte allein oder lernen Sie das Modell an.`;
      case 'mask-does-not-separate':
        return `Die Maske verwechselt ${formatList(refusal.classes)} mit anderem; ihre Anteile lassen sich daher nicht berichtigen. Nehmen Sie die Punkte allein oder lernen Sie das Modell an.`;
    }
  },

  adjustmentReasonText: ({ reason, test }) => {
    const p = test.smallestP === null ? '' : ` (kleinstes p ${test.smallestP.toFixed(3)})`;
    switch (reason) {
      case 'own-points-suffice':
        return 'Jedes Prüfglied hat genug Punkte, um nach seinen eigenen berichtigt zu werden.';
      case 'rates-not-different': {
        const hardly = test.hardlyTested.map(
          ({ treatment, classId, points: count }) => `${classId} in Prüfglied ${treatment} (${count})`,
        );
        return (
          `Es fand sich kein Unterschied darin, wie die Maske in den Prüfgliedern irrt${p}; ihre Punkte wurden daher zusammengenommen, da einige zu wenige eigene haben. Das beweist nicht, dass es keinen gibt.` +
          (hardly.length > 0 ? ` Kaum geprüft, mit wenigen Punkten: ${formatList(hardly)}.` : '')
        );
      }
      case 'rates-differ':
        return `Die Maske irrt in verschiedenen Prüfgliedern verschieden${p}; jedes wird daher nach seinen eigenen Punkten berichtigt oder gar nicht.`;
      case 'rates-untested':
        return 'Zu wenige Fotos mit Punkten, um zu prüfen, ob die Maske in allen Prüfgliedern gleich irrt; jedes wird daher nach seinen eigenen Punkten berichtigt oder gar nicht.';
      case 'pooled-rates-unusable':
        return 'Auch alle Punkte zusammen sagen nicht für jede Klasse, wie die Maske mit ihr umgeht; jedes Prüfglied wird daher nach seinen eigenen Punkten berichtigt oder gar nicht.';
    }
  },

  oneMethodText: (check) => {
    if (check.ok) return `Alle ${check.plots} Parzellen nach demselben Verfahren.`;
    const instead =
      check.instead.length > 0
        ? `Für jede Parzelle gibt es einen Wert nach ${formatList(check.instead)}.`
        : 'Kein Verfahren hat für jede Parzelle einen Wert.';
    return (
      `Am ${check.ratingDate} fehlt der Wert des gewählten Verfahrens für ${formatQuantity(check.plots.length, 'Parzelle', 'Parzellen')}: ${formatList(check.plots)}. ` +
      `Messen Sie sie auf dieselbe Weise, oder wählen Sie ein anderes Verfahren für alle. ${instead}`
    );
  },

  framesAgainstPointsText: (plan) => {
    const now = `Standardfehler der Deckung der Parzelle jetzt ${formatLength(plan.standardError)} Punkte`;
    const doubled = `mit doppelt so vielen Rahmen ${formatLength(plan.withTwiceTheFrames)}, mit doppelt so vielen Punkten in jedem ${formatLength(plan.withTwiceThePoints)}`;
    return plan.better === 'frames'
      ? `${now}; ${doubled}. Mehr Rahmen bringen mehr als mehr Punkte.`
      : `${now}; ${doubled}. Die Rahmen unterscheiden sich hier nicht; beides ist recht.`;
  },

  intervalText: span,

  pointsText: {
    title: 'Punkte',
    opening: 'Die Zählungen werden geöffnet …',
    parts: 'Teile der Punktzählung',
    part: {
      count: 'Zählen',
      plan: 'Punkte legen',
      results: 'Ergebnisse',
      observers: 'Beobachter',
      turf: 'Am Rasen',
      training: 'Übung',
    },
    day: (date) => (date === null ? 'Fotos ohne Termin' : formatDay(date, 'short')),
    date: 'Boniturtermin',
    observer: 'Beobachter',
    observerHint: 'Name oder Kürzel. Für jeden Beobachter gilt eine eigene Reihenfolge.',
    noObserver: 'Tragen Sie zuerst ein, wer zählt.',
    photoOnly:
      'Diese Intervalle kennen nur den Stichprobenfehler. Wer eine Klasse für eine andere hält, irrt an jedem Punkt; die Übung zeigt es.',

    count: {
      none: 'An diesem Termin sind noch keine Punkte gelegt.',
      noneHint:
        'Eine Zählung an Punkten ist die unabhängige Probe auf die Masken: Sie sagen, was unter einer Marke liegt, der Anteil der Treffer ist die Deckung, und ihr Fehler ist bekannt.',
      toPlan: 'Punkte legen',
      plan: (count, each, inAll) =>
        `Je ${formatCount(each)} auf ${photos(count)}` +
        (inAll === each * count ? '.' : `, davon ${formatCount(inAll)} auf gemessenem Boden.`),
      sampled: (drawnFrom, left) =>
        `Eine Zufallsstichprobe in jedem Prüfglied, aus ${photos(drawnFrom)}.` +
        (left.length > 0 ? ` Ausgelassen, und nicht mit gemeint: ${formatList(left)}.` : ''),
      withStrokes: (count) => `${formatCount(count)} mit gemalten Strichen`,
      inQueue: (count) => `${formatCount(count)} zweifelhaft oder durchgesehen`,
      everyPhoto: 'Jedes Foto des Termins.',
      seed: (seed) => `Startzahl ${seed}.`,
      start: 'Punkte ansprechen',
      goOn: 'Weiter ansprechen',
      results: 'Ergebnisse ansehen',
      progress: (done, all) => `${formatCount(done)} von ${formatQuantity(all, 'Punkt', 'Punkten')}`,
      byWhom: 'Stand nach Beobachter',
      nobody: 'Noch hat niemand einen Punkt angesprochen.',
      finished: 'Alle Punkte sind angesprochen.',
      outside: (pointCount, photoCount) =>
        `${points(pointCount)} auf ${photos(photoCount)} ${pointCount === 1 ? 'liegt' : 'liegen'} außerhalb des gemessenen Bodens, seit ein Rahmen oder eine ausgelassene Fläche geändert wurde. ` +
        'Was dort angesprochen wurde, bleibt aufbewahrt und zählt nicht.',
      replace: 'Neue Punkte dafür auslosen',
      otherRule: (count) =>
        `${formatQuantity(count, 'Ansprache folgte', 'Ansprachen folgten')} einer anderen Regel für kleine Lücken, als der Versuch jetzt hat. ` +
        'Sie beantworten eine andere Frage: Sie bleiben aufbewahrt und zählen nicht. Sprechen Sie diese Punkte neu an.',
      remove: 'Diesen Plan zurücknehmen',
      removeHint: 'Möglich, bis jemand einen Punkt davon angesprochen hat.',
      removed: 'Der Plan wurde zurückgenommen.',
    },

    plan: {
      title: 'Punkte auf Fotos legen',
      dates: 'Boniturtermine',
      photosOf: (count) => photos(count),
      design: 'Anordnung',
      designs: {
        'jittered-grid': 'Zufälliger Punkt in jeder Zelle',
        'regular-grid': 'Raster mit zufälligem Anfang',
        'simple-random': 'Zufällige Punkte',
        'transect-lines': 'Linien in gleichem Abstand',
      },
      designHint: {
        'jittered-grid':
          'Verteilt die Punkte und kann mit Mähstreifen oder Aerifizierlöchern nicht in Gleichschritt geraten.',
        'regular-grid': 'Verteilt am besten, aber ein Muster im Rasen, das mit ihm Schritt hält, täuscht.',
        'simple-random': 'Braucht gar keine Annahme; einige Punkte fallen eng zusammen.',
        'transect-lines':
          'Punkte einer Linie hängen zusammen; der Fehler wird daher von Linie zu Linie gerechnet.',
      },
      columns: 'Spalten',
      rows: 'Zeilen',
      points: 'Punkte',
      lines: 'Linien',
      perLine: 'Punkte je Linie',
      direction: 'Linien verlaufen',
      directions: { across: 'quer', down: 'hinab' },
      which: 'Fotos',
      drawn: 'Eine Zufallsstichprobe in jedem Prüfglied',
      drawnNoTrial: 'Eine Zufallsstichprobe jedes Termins',
      drawnHint:
        'Um die Masken zu prüfen. Fotos mit gemalten Strichen bleiben aus, denn sie sehen besser aus als die anderen; ebenso zweifelhafte und durchgesehene, denn sie sehen schlechter aus und werden zuerst verbessert.',
      every: 'Jedes Foto',
      everyHint:
        'Um Prüfglieder nach Punkten allein zu vergleichen, oder nach berichtigter Deckung, wo die Maske ungleich irrt.',
      perTreatment: 'Fotos je Prüfglied',
      perDate: 'Fotos je Termin',
      seed: 'Startzahl',
      newSeed: 'Andere Startzahl',
      seedHint: 'Dieselbe Startzahl lost dieselben Fotos und Punkte wieder aus.',
      lay: 'Diese Punkte legen',
      nothing: 'Kein Foto bekäme Punkte.',
      noDates: 'Wählen Sie einen Boniturtermin.',
      laid: (count) => `Auf ${photos(count)} sind Punkte gelegt.`,
      already: (count) =>
        `${photos(count)} ${count === 1 ? 'hat schon Punkte und behält' : 'haben schon Punkte und behalten'} sie.`,
      unready: (count) =>
        `${photos(count)} beiseite gelassen: noch nicht gemessen oder zu keiner Parzelle des Versuchs gehörig.`,
      unplaced: (count) => `Auf ${photos(count)} fiel kein Punkt auf gemessenen Boden.`,
      ofTreatment: (treatment, count) => `Prüfglied ${treatment}: ${photos(count)}.`,
      ofDate: (count, from, left) =>
        (count === from ? `${photos(count)}.` : `${photos(count)} ausgelost aus ${formatCount(from)}.`) +
        (left.length > 0 ? ` Ausgelassen, und nicht mit gemeint: ${formatList(left)}.` : ''),
      spread: (className) => `Nach den bisherigen Zählungen, ${className}:`,
      planner: 'Was es zeigen kann',
      expected: 'Erwartete Deckung',
      confidence: 'Mit 95 % Sicherheit, für den Boden in einem Rahmen:',
      halfWidth: (half) => `± ${formatLength(100 * half)} Prozentpunkte`,
      halfWidthLabel: 'Halbe Breite des Intervalls',
      smallest: 'Kleinste Deckung, die bemerkt wird',
      smallestValue: (fraction) => `${formatLength(100 * fraction)} %`,
      smallestHint: 'Bei weniger fällt vielleicht gar kein Punkt darauf.',
      needed: (count, half) => `Für ± ${formatLength(half)} Prozentpunkte braucht es etwa ${points(count)}.`,
      calls: 'Ansprachen insgesamt',
      callsValue: (count, minutes) =>
        `${formatCount(count)}, etwa ${formatQuantity(Math.max(1, Math.round(minutes)), 'Minute', 'Minuten')} bei einer je Sekunde`,
      plant: 'Durchmesser einer Pflanze oder eines Horstes',
      spacing: 'Abstand der Punkte',
      noScale:
        'Die Rahmen haben keine Größe; Abstände lassen sich daher nicht angeben. Tragen Sie sie im Bereich Deckung ein.',
      frames:
        'Mehr Rahmen je Parzelle bringen meist mehr als mehr Punkte je Rahmen: Punkte eines Rahmens stehen in denselben Nestern.',
      seedProblem: 'Eine ganze Zahl von 0 bis 4294967295.',
    },

    calling: {
      label: 'Punkte ansprechen',
      photo: (index, of) => `Foto ${index} von ${of}`,
      point: (index, of) => `Punkt ${index} von ${of}`,
      leave: 'Verlassen',
      pause: 'Anhalten',
      resume: 'Weiter',
      paused: 'Angehalten',
      pausedHint:
        'Alles bisher Angesprochene ist gespeichert. Sie können die Seite schließen und an einem anderen Tag weitermachen.',
      pausedTraining: 'Eine Übung wird aufbewahrt, wenn sie fertig ist.',
      cannotTell: 'Nicht erkennbar',
      back: 'Zurück',
      forward: 'Vor',
      classes: 'Was liegt unter der Marke?',
      stage: (index, of) => `Das Foto um Punkt ${index} von ${of}, der Punkt in der Mitte des Rings`,
      closer: 'Näher',
      wider: 'Weiter',
      photoDone: 'Dieses Foto ist fertig',
      photoDoneHint: (left) => (left === 0 ? '' : `Noch ${photos(left)}.`),
      next: 'Nächstes Foto',
      allDone: 'Alle Fotos dieses Termins sind gezählt',
      allDoneHint:
        'Ein zweiter Beobachter an denselben Punkten zeigt, wie weit eine andere Person sie anders ansprechen würde.',
      toResults: 'Ergebnisse ansehen',
      loading: 'Foto wird geöffnet …',
      failed: 'Dieses Foto lässt sich nicht zeigen. Seine Punkte bleiben ohne Ansprache.',
      skip: 'Nächstes Foto',
      finish: 'Fertig',
      unstored: (count) =>
        `${formatQuantity(count, 'Ansprache ist', 'Ansprachen sind')} noch nicht gespeichert. Schaffen Sie Platz auf diesem Gerät; schließen Sie diese Seite nicht.`,
      storeAgain: 'Noch einmal speichern',
      key: (key) => `Taste ${key}`,
      callAs: (name) => `Als ${name} ansprechen`,
      nothing: 'An diesem Termin gibt es keine Punkte anzusprechen.',
    },

    results: {
      none: 'An diesem Termin ist noch nichts gezählt.',
      estimates: 'Deckung nach Punkten',
      level: 'Wofür der Wert gilt',
      levels: { frame: 'Rahmen', plot: 'Parzellen', treatment: 'Prüfglieder' },
      target: {
        frame: 'Jedes Intervall gilt für den Boden in einem Rahmen, nicht für die Parzelle darum herum.',
        plot: 'Jedes Intervall gilt für eine ganze Parzelle. Ihre unabhängigen Teile sind Rahmen, nicht Punkte.',
        treatment:
          'Jedes Intervall gilt für das Mittel der Parzellen eines Prüfglieds an diesem Ort und Termin.',
      },
      plotWord: 'Parzelle',
      photoWord: 'Foto',
      photosWord: 'Fotos',
      treatmentWord: 'Prüfglied',
      noPlot: 'keine Parzelle',
      pointsWord: 'Punkte',
      indeterminate: 'Nicht erkennbar',
      unlabelled: (count) => `noch ${points(count)}`,
      simultaneous: (interval) => `alle Klassen zusammen ${span(interval)}`,
      ifIndeterminate: (interval) => `unentschieden ${span(interval)}`,
      noInterval: 'kein Intervall',
      all: 'Intervalle für alle Klassen zusammen',
      allHint: 'Intervalle nach Goodman: Mit 95 % Sicherheit liegen alle Klassen zugleich darin.',
      unfinished: (count) => `${photos(count)} nicht fertig: Punkte ohne Ansprache können anders ausfallen.`,

      mask: 'Die Maske an diesen Punkten',
      maskHint:
        'Die automatischen Masken gegen das Gesehene. Über den Boden gelegte Punkte sprechen für das ganze Foto.',
      noMask:
        'Kein Foto mit Punkten hat eine Maske der jetzigen Klassen und Lückenregel. Sie wird gerade gerechnet, oder das Foto ist neu zu messen.',
      withStrokes: (count) =>
        `${photos(count)} mit gemalten Strichen ausgelassen: Ein Modell sieht dort besser aus als anderswo.`,
      matrix: 'Klasse der Maske nach angesprochener Klasse, Punkte',
      maskSays: 'Maske sagt',
      seen: 'Angesprochen',
      users: 'Nutzergenauigkeit',
      usersHint: 'von dem, was die Maske so nennt, ist so',
      producers: 'Herstellergenauigkeit',
      producersHint: 'von dem, was so ist, nennt die Maske so',
      overall: (share) => `${formatPercent(share)} % des Bodens sind richtig benannt.`,
      kappa: (kappa, error) =>
        kappa === null
          ? 'Kappa lässt sich nicht berechnen: nur eine Klasse.'
          : `Kappa ${kappa.toFixed(2)}${error === null ? '' : ` (Standardfehler ${error.toFixed(2)})`}: Übereinstimmung über den Zufall hinaus.`,
      pooledAccuracy: 'Genauigkeiten aller Fotos zusammen, gewichtet mit den mittleren Anteilen der Masken.',
      agreement: 'Maske und Punkte über die Fotos',
      agreementHint: 'Prozentpunkte, Maske minus Punkte.',
      klass: 'Klasse',
      meanDifference: 'Mittlere Differenz',
      limits: 'Übereinstimmungsgrenzen',
      lin: 'Konkordanz nach Lin',
      pointNoise: 'Allein durch Punkte erklärt',
      pointNoiseHint: 'Die Streuung, die der Stichprobenfehler der Punkte allein ergibt.',
      drawnClass: 'Klasse in der Abbildung',
      agreementOf: (name) => `Maske minus Punkte, ${name}`,
      methodsCompared: ['Maske', 'Punkte'],
      tooFewPhotos: 'Es braucht zwei Fotos oder mehr.',

      adjusted: 'Berichtigte Deckung',
      adjustedHint: 'Die Deckung der Maske, berichtigt um die Fehler, die die Punkte darin fanden.',
      ownPoints: 'Jedes Foto nach seinen eigenen Punkten.',
      pooled: 'Jedes Foto nach den Fehlerraten aller Punkte zusammen, nach der Deckung aufgelöst.',
      maskShare: 'Maske',
      pointsShare: 'Punkte',
      adjustedShare: 'Berichtigt',
      refusals: (count) => `${photos(count)} ${count === 1 ? 'lässt' : 'lassen'} sich nicht berichtigen`,
      collapsed: (names) =>
        `Zu wenige Punkte auf ${formatList(names)}, einem kleinen Teil der Maske: mit der größten Klasse gezählt.`,
      cut: 'Die Lösung fiel aus 0 bis 100 % heraus und wurde gekappt.',
      byTreatment: 'Mittel der Prüfglieder',
      testTitle: 'Irrt die Maske in allen Prüfgliedern gleich?',
      test: ({ smallestP, photos: count, treatments }) =>
        smallestP === null
          ? `Aus ${photos(count)} in ${formatQuantity(treatments, 'Prüfglied', 'Prüfgliedern')} nicht zu sagen.`
          : `Kleinstes p der Klassen ${smallestP.toFixed(3)}, aus ${photos(count)} in ${formatQuantity(treatments, 'Prüfglied', 'Prüfgliedern')}; unter 0.25 gilt es als verschieden.`,

      method: 'Werte für den Vergleich',
      methodHint:
        'Ein Vergleich nimmt ein Verfahren für alle Parzellen. Es wird im Bereich Vergleich festgelegt, bevor die Prüfglieder zu sehen sind; alle Verfahren bleiben gespeichert.',
      methods: {
        automatic: 'Automatische Maske',
        corrected: 'Von Hand korrigierte Maske',
        points: 'Punkte',
        adjusted: 'Berichtigte Deckung',
      },
      methodWord: 'Verfahren',
      plotsWith: 'Parzellen dieses Termins mit einem Wert',
      has: (have, of) =>
        have === of
          ? `alle ${formatQuantity(of, 'Parzelle', 'Parzellen')}`
          : `${formatCount(have)} von ${formatQuantity(of, 'Parzelle', 'Parzellen')}`,
      declared: (method, by, at) =>
        `Festgelegt: ${method}, von ${by} am ${formatDay(at.slice(0, 10), 'short')}.`,
      declaredOther: (by, at) =>
        `Festgelegt ist eine bonitierte Größe, von ${by} am ${formatDay(at.slice(0, 10), 'short')}.`,
      notDeclared:
        'Noch ist nichts festgelegt; die Prüfglieder stehen hier daher unter Codes: Wer sie kennt, könnte das Verfahren wählen, das einem schmeichelt.',
      toCompare: 'Zum Vergleich',
      coded: (code) => `Code ${code}`,
      numbered: (treatment) => `Prüfglied ${treatment}`,
      keep: 'Diese Werte behalten',
      keepHint:
        'Speichert die Werte nach Punkten und die berichtigten dieses Termins, von diesem Beobachter, für den Vergleich.',
      kept: (byPoints, adjusted) =>
        `Behalten: ${formatQuantity(byPoints, 'Wert', 'Werte')} nach Punkten, ${formatCount(adjusted)} berichtigt.`,
      saveCounts: 'Zählungen speichern (JSON)',
      saveCountsHint: 'Klasse der Maske gegen angesprochene Klasse, für die Befehlszeile: swardbook adjust.',
      noTrial: 'Ohne Versuch gibt es keine Prüfglieder zu vergleichen.',
    },

    observers: {
      title: 'Zwei Beobachter an denselben Punkten',
      need: 'Es braucht zwei Beobachter, die dieselben Punkte angesprochen haben. Lassen Sie eine zweite Person diesen Termin ansprechen.',
      first: 'Erster',
      second: 'Zweiter',
      matrix: 'Punkte nach dem, was beide sagten',
      judged: (both, undecided) =>
        `${points(both)} von beiden beurteilt` +
        (undecided > 0 ? `, ${formatCount(undecided)}, an denen einer es nicht erkannte.` : '.'),
      bias: 'Erster minus Zweiter',
      hint: 'Prozentpunkte der Deckung, Mittel über die Fotos, und die Grenzen, zwischen denen 95 % der Fotos liegen.',
    },

    turf: {
      title: 'Am Rasen gezählt',
      hint: 'Punkte, die im Rahmen selbst angesprochen wurden, mit einem Schnurraster oder Nadelrahmen, und hier eingetragen. Über eine Maske sagen sie nichts.',
      plot: 'Parzelle',
      place: 'Stelle in der Parzelle',
      placeHint: 'Leer lassen, wo es nur eine gibt.',
      design: 'Wie die Punkte lagen',
      designExample: 'z. B. Schnurraster, 10 x 10',
      hits: (name) => `Punkte auf ${name}`,
      cannotTell: 'Punkte ohne Urteil',
      add: 'Diese Zählung behalten',
      remove: (count) => `${count} zurücknehmen`,
      none: 'Noch keine Zählungen am Rasen.',
      listTitle: 'Zählungen dieses Termins',
      total: (count) => points(count),
      problem: {
        plot: 'Nennen Sie die Parzelle.',
        unknownPlot: (plot) => `Der Versuch hat keine Parzelle ${plot}.`,
        observer: 'Tragen Sie ein, wer gezählt hat.',
        hits: 'Ganze Zahlen ab 0, und wenigstens ein Punkt.',
        date: 'Eine Zählung gehört zu einem Boniturtermin: Wählen Sie einen.',
      },
      added: (plot, count) => `Behalten: Parzelle ${plot}, ${points(count)}.`,
      estimates: 'Deckung nach Parzelle',
    },

    training: {
      title: 'Übung an Bildern, deren Wahrheit bekannt ist',
      intro: (pictures, pointsEach) =>
        `${pictures} gerechnete Bilder, je ${points(pointsEach)}. Erst schätzen Sie die Deckung auf einen Blick, dann sprechen Sie die Punkte an; am Ende wird beides an die genaue Wahrheit gehalten. Etwa zehn Minuten.`,
      rendered:
        'Die Bilder sind gerechnet, nicht fotografiert: Wer hier gut abschneidet, muss den wirklichen Rasen des Versuchs trotzdem mit jemandem ansehen, der ihn kennt.',
      start: 'Runde beginnen',
      again: (round) => `Runde ${round} beginnen`,
      loading: 'Die Bilder werden geholt …',
      failed: (detail) =>
        `Die Bilder lassen sich nicht holen (${detail}). Verbinden Sie sich einmal und versuchen Sie es noch einmal.`,
      rate: (index, of) => `Bild ${index} von ${of}: Wie viel wovon?`,
      rateHint: 'Auf einen Blick, in Prozent. Die drei müssen 100 ergeben.',
      picture: (index) => `Gerechneter Rasen, Bild ${index}`,
      sum: (sum) => `Zusammen ${formatLength(sum)} %`,
      toPoints: 'Weiter zu den Punkten',
      leave: 'Übung verlassen',
      leaveHint: 'Eine Runde, die nicht fertig ist, wird nicht aufbewahrt.',
      results: 'Wie die Beobachter abschnitten',
      none: 'Noch hat niemand eine Runde beendet.',
      round: (observer, round) => `${observer}, Runde ${round}`,
      right: 'Richtige Ansprachen',
      kappa: 'Kappa mit der Wahrheit',
      callBias: 'Ansprachen: Deckung, Verzerrung',
      rateBias: 'Blick: Verzerrung',
      spread: 'Grenzen',
      between: 'Zwischen Beobachtern',
      betweenHint: 'Die neueste Runde, die beide beendet haben, an denselben Punkten.',
      betweenKappa: (first, second, kappa, count) =>
        `${first} und ${second}: Kappa ${kappa} an ${formatQuantity(count, 'Punkt', 'Punkten')}.`,
      seesMore: 'Positiv: Der Beobachter sieht zu viel von der Klasse.',
    },
  },

  qualityVerdictText: { good: 'Gutes Foto', usable: 'Brauchbar, mit Vorsicht', retake: 'Foto wiederholen' },

  qualityFindingText: (finding) => {
    switch (finding.code) {
      case 'blurred':
        return (
          `Unscharf: Die feinste Einzelheit ist ${formatLength(finding.detailMm)} mm breit, scharfe Fotos zeigen 1 mm. ` +
          'Wischen Sie die Linse ab, tippen Sie zum Scharfstellen auf den Rasen, halten Sie still und wiederholen Sie das Foto.'
        );
      case 'noisy':
        return (
          `Körnig: Die Farben springen von Pixel zu Pixel um ${formatCount(Math.round(finding.noiseLevels))} Stufen. ` +
          'Es war wenig Licht; warten Sie auf mehr, oder halten Sie das Telefon mit beiden Händen ruhig.'
        );
      case 'lights-clipped':
        return (
          `${formatPercent(finding.fraction)} % des Rasens sind so hell, dass sie keine Farbe zeigen. ` +
          'Verringern Sie die Belichtung (antippen, dann nach unten ziehen) oder beschatten Sie den ganzen Rahmen, und wiederholen Sie das Foto.'
        );
      case 'shadows-clipped':
        return (
          `${formatPercent(finding.fraction)} % des Rasens sind so dunkel, dass sie keine Farbe zeigen. ` +
          'Erhöhen Sie die Belichtung oder warten Sie auf weicheres Licht, und wiederholen Sie das Foto.'
        );
      case 'too-dark':
        return 'Unterbelichtet: Der Rasen ist zu dunkel. Tippen Sie auf den Rasen, erhöhen Sie die Belichtung und wiederholen Sie das Foto.';
      case 'too-light':
        return 'Überbelichtet: Der Rasen ist zu hell. Tippen Sie auf den Rasen, verringern Sie die Belichtung und wiederholen Sie das Foto.';
      case 'tilted':
        return (
          `Die Kamera war um etwa ${formatCount(Math.round(finding.tiltDegrees))}° geneigt. ` +
          'Von der Seite gesehen verdecken Blätter den Boden zwischen ihnen: Halten Sie das Telefon waagerecht über die Mitte des Rahmens.'
        );
      case 'few-pixels':
        return (
          `Ein Pixel ist ${formatLength(finding.millimetresPerPixel)} mm Boden, ein Blatt also nur ` +
          `${formatLength(finding.pixelsPerBlade)} Pixel breit. Gehen Sie näher heran, füllen Sie das Bild mit dem Rahmen, oder stellen Sie die Kamera auf volle Größe.`
        );
      case 'shadow-across':
        return (
          `Ein harter Schatten liegt über ${formatPercent(finding.darkFraction)} % des Rahmens; der Rest hat ` +
          `das ${formatLength(finding.lightRatio)}-Fache seines Lichts. Treten Sie zur Seite, damit Ihr Schatten außerhalb fällt, oder beschatten Sie den ganzen Rahmen.`
        );
      case 'very-wide-lens':
        return (
          `Mit einem sehr weitwinkligen Objektiv aufgenommen (${formatCount(Math.round(finding.focalLength35Mm))} mm bei Kleinbild), das Linien biegt und ` +
          'die Ränder von der Seite sieht. Nehmen Sie die Hauptkamera (1×).'
        );
      case 'digital-zoom':
        return `Digitaler Zoom von ${formatLength(finding.ratio)}× bringt keine Einzelheiten. Gehen Sie auf 1× zurück und näher heran.`;
      case 'strongly-compressed':
        return (
          `Die Datei ist stark komprimiert (Qualität etwa ${formatCount(finding.quality)} von 100), wie nach dem Versenden über einen Nachrichtendienst. ` +
          'Kopieren Sie das Original mit Kabel oder als Datei vom Telefon.'
        );
      case 'resized':
        return (
          `Die Kamera schrieb ${formatCount(finding.writtenWidthPx)} × ${formatCount(finding.writtenHeightPx)} Pixel, diese Datei hat ` +
          `${formatCount(finding.widthPx)} × ${formatCount(finding.heightPx)}. Sie wurde unterwegs beschnitten oder verkleinert: Nehmen Sie das Original.`
        );
      case 'camera-facts-lost':
        return 'Die Datei enthält keine Angaben der Kamera, wie nach dem Versenden über einen Nachrichtendienst oder nach dem Bearbeiten. Nehmen Sie das Original, falls es eines gibt.';
      case 'no-neutral-reference':
        return 'Keine Graukarte gefunden. Farben bei verschiedenem Licht lassen sich mit einer in jedem Foto besser vergleichen.';
      case 'neutral-reference-unusable':
        return finding.warning === 'grey-card-too-light'
          ? 'Die Graukarte ist zu hell für einen Farbabgleich. Halten Sie sie aus dem Glanz, oder verringern Sie die Belichtung.'
          : 'Die Graukarte ist zu dunkel für einen Farbabgleich. Halten Sie sie aus dem Schatten, oder erhöhen Sie die Belichtung.';
    }
  },

  qualityWords: {
    title: 'Fotoqualität',
    numbers: 'Zahlen und Grenzen',
    caption: 'Was am Foto gemessen wurde, und die Grenzen, nach denen es beurteilt wird',
    measure: 'Maß',
    value: 'Hier',
    caution: 'Vorsicht ab',
    retake: 'Wiederholen ab',
    goodSoFar: 'Gut, soweit es sich sagen lässt',
    noScale: 'Schärfe und Maßstab sind nicht beurteilt: Die Größe des Rahmens ist nicht bekannt.',
    nothing: 'Nichts spricht dagegen, es zu messen.',
    judging: 'Das Foto wird angesehen …',
  },

  frameWarningText: (warning) => {
    switch (warning.code) {
      case 'frame-side-hidden':
        return (
          `Nur ${formatPercent(warning.seenFraction)} % der Rahmenseite ${SIDES[warning.side]} sind zu sehen. ` +
          'Prüfen Sie ihre Linie; drücken Sie das nächste Mal das Gras nieder und halten Sie die Füße vom Rahmen.'
        );
      case 'frame-side-uncertain':
        return `Die Innenkante der Rahmenseite ${SIDES[warning.side]} ist unruhig. Prüfen Sie ihre Linie und ziehen Sie die Ecken, falls sie danebenliegt.`;
      case 'frame-side-faint':
        return `Die Rahmenseite ${SIDES[warning.side]} unterscheidet sich in der Farbe kaum vom Rasen. Prüfen Sie ihre Linie; ein hellerer Rahmen wird sicherer gefunden.`;
      case 'second-frame':
        return 'Im Foto sind zwei Rahmen. Prüfen Sie, ob der richtige markiert ist.';
      case 'frame-ambiguous':
        return 'Auch andere Linien im Foto ergäben einen Rahmen. Prüfen Sie die Ecken.';
    }
  },

  frameMissingText: (reason) =>
    reason === 'frame-cut-off'
      ? 'Der Rahmen ragt aus dem Foto. Wiederholen Sie es mit allen vier Ecken im Bild, oder markieren Sie die Fläche von Hand.'
      : 'Kein Rahmen gefunden. Markieren Sie seine Innenecken von Hand, oder messen Sie das ganze Foto.',

  mixedDevicesText: ({ devices }) => {
    const parts = devices.map(({ device, photos: count }) => `${device} (${photos(count)})`);
    return (
      `Fotos dieses Termins stammen von ${formatCount(devices.length)} Kameras: ${parts.join(', ')}. ` +
      'Ihre Farben sind verschieden: Malen Sie Striche auf Fotos von jeder, und prüfen Sie, ob ein Prüfglied nur mit einer davon aufgenommen wurde.'
    );
  },

  correctionBytesProblemText: (problem) => {
    switch (problem.code) {
      case 'corrections-other-data':
        return 'Was als Korrekturen gespeichert ist, ist etwas anderes. Es bleibt, wie es ist; exportieren Sie es und fragen Sie um Rat, bevor Sie dieses Foto neu korrigieren.';
      case 'corrections-newer-version':
        return (
          `Die Korrekturen wurden von einer neueren Version dieses Programms gespeichert (Format ${problem.version}, bekannt bis ${problem.known}). ` +
          'Sie bleiben, wie sie sind. Aktualisieren Sie das Programm, um sie zu sehen.'
        );
      case 'corrections-damaged':
        return (
          `Die Korrekturen sind beschädigt (${problem.detail}). Sie bleiben, wie sie sind. ` +
          'Nehmen Sie sie aus einem Archiv oder von einem anderen Gerät; bis dahin sind die automatischen Klassen zu sehen.'
        );
      case 'corrections-other-size':
        return (
          `Die Korrekturen gehören zu einem Foto von ${problem.widthPx} × ${problem.heightPx} Pixeln, dieses hat ` +
          `${problem.photoWidthPx} × ${problem.photoHeightPx}. Sie bleiben aufbewahrt; suchen Sie das Foto, auf dem sie gemacht wurden.`
        );
    }
  },

  lopsidedWarningText: (warning, classNames) => {
    switch (warning.code) {
      case 'corrections-treatments-left-out':
        return (
          `Fotos wurden von Hand korrigiert, aber von ${formatList(warning.leftOut)} wurde keines angesehen (von ${formatList(warning.seen)} einige). ` +
          'Nur einige Prüfglieder zu korrigieren verzerrt ihren Vergleich: Sehen Sie Fotos jedes Prüfglieds an.'
        );
      case 'corrections-uneven-review':
        return (
          `Von ${warning.most.treatment} wurden ${formatPercent(warning.most.fraction)} % der Fotos angesehen, ` +
          `von ${warning.least.treatment} nur ${formatPercent(warning.least.fraction)} %. ` +
          'Prüfglieder sollten mit gleicher Sorgfalt geprüft werden: Sehen Sie die übrigen an, oder einen gleichen, ausgelosten Anteil.'
        );
      case 'corrections-move-comparison': {
        const name = classNames[warning.label - 1];
        if (name === undefined)
          throw new RangeError(`class ${warning.label}: ${classNames.length} names are given`);
        const moved = (fraction: number) => `${formatSigned(fraction * 100)} Punkte`;
        return (
          `Korrekturen haben die mittlere Deckung von ${name} in ${warning.most.treatment} um ${moved(warning.most.fraction)} ` +
          `und in ${warning.least.treatment} um ${moved(warning.least.fraction)} verschoben. ` +
          'Ein Teil des Unterschieds zwischen ihnen beruht auf Handarbeit: Prüfen Sie ihn mit einer Punktzählung.'
        );
      }
    }
  },

  photoProblemText: (problem) => {
    switch (problem.code) {
      case 'empty-file':
        return 'Die Datei ist leer (0 Byte). Kopieren Sie sie noch einmal von der Kamera.';
      case 'not-a-picture':
        return 'Dies ist kein Bild, was auch der Name sagt. Wählen Sie das Foto, wie die Kamera es gespeichert hat: JPEG, PNG oder WebP.';
      case 'truncated':
        return 'Die Datei endet vor dem Bild, wie nach einem abgebrochenen Kopieren. Kopieren Sie sie noch einmal von der Kamera.';
      case 'damaged':
        return `Die Datei ist beschädigt (${problem.detail}). Kopieren Sie sie noch einmal von der Kamera; hilft das nicht, öffnen Sie sie in einem Bildprogramm und speichern Sie sie als JPEG.`;
      case 'too-large':
        return (
          `${formatCount(problem.widthPx)} × ${formatCount(problem.heightPx)} Pixel sind ` +
          `${formatLength((problem.widthPx * problem.heightPx) / 1e6)} Megapixel; bis ${problem.limitMegapixels} lassen sich messen. ` +
          'Speichern Sie das Foto kleiner; 12 Megapixel sind für eine Parzelle reichlich.'
        );
      case 'too-small':
        return (
          `${formatCount(problem.widthPx)} × ${formatCount(problem.heightPx)} Pixel sind zu wenige, um Blätter von Boden zu unterscheiden: ` +
          `Jede Seite braucht mindestens ${problem.leastSidePx}. Dies ist vielleicht ein Vorschaubild; wählen Sie das Foto selbst.`
        );
      case 'heic-not-decodable':
        return (
          'HEIC-Fotos lassen sich hier nicht öffnen. Stellen Sie die Kamera für die nächsten Fotos auf „maximal kompatibel“ (JPEG), ' +
          'und exportieren Sie dieses als JPEG in voller Größe.'
        );
      case 'cmyk':
        return 'Die Farben sind für den Druck gespeichert (CMYK). Exportieren Sie das Foto als JPEG in sRGB.';
      case 'greyscale':
        return 'Das Foto hat keine Farben, und Gras wird an der Farbe vom Boden unterschieden. Wählen Sie das Farbfoto, wie die Kamera es gespeichert hat.';
      case 'unsupported-kind':
        return `${problem.kind.slice(0, 1).toUpperCase()}${problem.kind.slice(1)} lässt sich nicht messen. Exportieren Sie das Foto als gewöhnliches JPEG in voller Größe.`;
      case 'frame-corner-outside':
        return (
          `Die Ecke ${CORNERS[problem.corner]} des Rahmens (${formatLength(problem.x)}, ${formatLength(problem.y)}) liegt außerhalb des Fotos. ` +
          'Ecken stehen in Pixeln des aufrechten Fotos, von oben links gezählt.'
        );
      case 'frame-corners-crossed':
        return 'Die Ecken des Rahmens überkreuzen sich oder laufen falsch herum. Geben Sie sie als oben links, oben rechts, unten rechts, unten links an.';
      case 'frame-too-small':
        return `Der Rahmen umfasst nur ${formatCount(Math.round(problem.areaPx))} Pixel. Prüfen Sie seine Ecken, oder fotografieren Sie aus größerer Nähe.`;
      case 'frame-too-slanted':
        return 'Diese Ecken wären ein fast von der Seite gesehener Rahmen. Prüfen Sie die Ecken, oder fotografieren Sie ihn genau von oben.';
      case 'nothing-to-measure':
        return 'Es bleibt nichts zu messen: Ausgelassene Flächen, Graukarte und durchsichtige Teile nehmen den ganzen Rahmen ein. Machen Sie sie kleiner.';
    }
  },

  offlineText: {
    title: 'Ohne Netz',
    program: {
      none: 'Dieser Browser oder diese Adresse kann das Programm nicht behalten: Es öffnet sich nur mit Netz. Öffnen Sie es über https.',
      fetching:
        'Wird für das Feld bereit gemacht: Warten Sie, bis diese Zeile es sagt, bevor Sie das Netz verlassen.',
      ready: 'Bereit für das Feld: Das Programm öffnet sich und arbeitet auf diesem Gerät ohne Netz.',
      stopped:
        'Das Programm ließ sich auf diesem Gerät nicht behalten. Beim nächsten Öffnen der Seite wird es wieder versucht.',
    },
    install:
      'Legen Sie es auf den Startbildschirm oder installieren Sie es aus dem Menü des Browsers. Manche Telefone löschen, was eine Seite aufbewahrt, wenn sie nicht installiert ist und einige Tage nicht benutzt wurde.',
    update:
      'Eine neuere Version ist da. Diese Seite arbeitet mit ihrer eigenen weiter, bis Sie die neue wählen.',
    takeUpdate: 'Neue Version verwenden',
  },

  classesText: {
    caption: 'Klassen, in der Reihenfolge von Masken und Tabellen',
    add: 'Klasse hinzufügen',
    full: (most) => `Ein Versuch unterscheidet höchstens ${most} Klassen.`,
    edit: (name) => `${name} ändern`,
    editWord: 'Ändern',
    up: (name) => `${name} nach oben`,
    down: (name) => `${name} nach unten`,
    addedTo: (name) => `zählt zu ${name}`,
    taughtOnly: 'nur durch Striche zu finden',
    dialogNew: 'Klasse hinzufügen',
    dialogEdit: 'Klasse ändern',
    kind: 'Art',
    kinds: {
      'green-base-turf': 'Grüner Grundrasen',
      seedheads: 'Samenstände',
      'discoloured-tissue': 'Verfärbtes Gewebe',
      'broadleaf-weeds': 'Zweikeimblättrige Unkräuter',
      other: 'Eine andere Art',
    },
    otherName: 'Neue Klasse',
    name: 'Name',
    letter: 'Buchstabe',
    letterHint: 'Steht überall, wo die Farbe steht, und ist beim Ansprechen von Punkten die Taste.',
    letterTaken: (name) => `${name} hat diesen Buchstaben. Nehmen Sie einen anderen.`,
    group: 'In Berichten',
    ownGroup: 'Für sich',
    groupHint: 'Samenstände und verfärbte Blätter zählen zur lebenden Pflanze, zu der sie gehören.',
    colour: 'Farbe',
    colourNumber: (at) => `Farbe ${at}`,
    ownColour: 'Andere Farbe',
    alike: (names) =>
      `Schwer von ${formatList(names)} zu unterscheiden, zumindest für Menschen mit Rot-Grün-Schwäche. Buchstabe und Muster trennen sie weiterhin.`,
    newClassHint:
      'Das Startmodell kann sie nicht finden: Sie hat 0 %, bis ein Termin mit Strichen davon angelernt ist.',
    save: 'Klasse behalten',
    remove: 'Klasse entfernen',
    removeTitle: (name) => `${name} entfernen?`,
    fewest: 'Ein Versuch unterscheidet mindestens zwei Klassen; daher lässt sich keine entfernen.',
    nothingHangs: 'Mit dieser Klasse wurde nichts gemalt, angesprochen, korrigiert oder gemessen.',
    hangs: (strokeCount, calls, corrected, measured) =>
      `An dieser Klasse hängen ${formatList([
        ...(strokeCount > 0 ? [strokes(strokeCount)] : []),
        ...(calls > 0 ? [formatQuantity(calls, 'angesprochener Punkt', 'angesprochene Punkte')] : []),
        ...(corrected > 0 ? [formatQuantity(corrected, 'korrigiertes Foto', 'korrigierte Fotos')] : []),
        ...(measured > 0 ? [formatQuantity(measured, 'gemessenes Foto', 'gemessene Fotos')] : []),
      ])}. Nichts davon wird gelöscht, aber ohne die Klasse zählt es nicht.`,
    removeSure: 'Entfernen',

    gapTitle: 'Kleine Lücken zwischen Pflanzen',
    gapEvery: 'Jedes Pixel zählt',
    gapEveryHint: 'Dunkle Lücken zwischen Blättern sind offener Boden, wie klein sie auch sind.',
    gapCircle: 'Enge Lücken zählen zu den Pflanzen daneben',
    gapCircleHint:
      'Offener Boden ist, wo ein Kreis dieser Breite hineinpasst; alles Engere geht an den nächsten Bewuchs. Braucht die Größe des Rahmens. Automatische Masken zeichnen Lücken gröber, als sie sind: Prüfen Sie solche Werte mit Punkten.',
    gapWidth: 'Breite des Kreises',
    gapSettle:
      'Das macht mehrere Punkte Deckung aus; legen Sie es einmal fest, vor der ersten Bonitur. Es steht neben jedem Wert, und auch Punkte folgen der Regel.',
    staleNotice: (count) =>
      `${formatQuantity(count, 'Foto ist', 'Fotos sind')} mit früheren Klassen oder einer früheren Lückenregel gemessen.`,
    setAsideNotice: (count) =>
      `Das für ${photos(count)} angelernte Modell kennt andere Klassen, als der Versuch jetzt hat; gemessen wird daher mit dem Startmodell. Lernen Sie die Termine neu an.`,
    measureAgain: 'Neu messen',
  },

  gapRuleText: (rule) =>
    !rule || rule.kind === 'every-pixel'
      ? 'Kleine Lücken zwischen Pflanzen: Jedes Pixel gezählt.'
      : `Offener Boden, in den kein Kreis von ${formatLength(rule.smallerThanMm)} mm passt, zählt als der nächste Bewuchs.`,

  fieldText: {
    title: 'Auf dem Feld',
    opening: 'Der Feldtag wird geöffnet …',

    days: {
      title: 'Welcher Boniturtermin?',
      intro:
        'Hier aufgenommene Fotos gehen an die angezeigte Parzelle und diesen Termin. Wo Sie stehen, bleibt gemerkt: Schließen Sie die Seite, wann Sie wollen.',
      noTrial:
        'Es gibt noch keinen Versuch. Auf dem Feld werden seine Parzellen abgegangen: Legen Sie ihn zuerst an.',
      noPlots:
        'Der Versuch hat noch keine Parzellen. Losen Sie zuerst einen Lageplan aus oder lesen Sie ihn ein.',
      noDates: 'Der Versuch hat noch keinen Boniturtermin mit Datum. Tragen Sie zuerst welche ein.',
      toPlan: 'Plan öffnen',
      done: (done, of, skipped) =>
        `${formatCount(done)} von ${formatCount(of)} fotografiert${skipped > 0 ? `, ${formatCount(skipped)} ausgelassen` : ''}`,
      today: 'heute',
      begun: 'auf diesem Telefon begonnen',
      unknown: (date) => `Der Versuch hat keinen Boniturtermin „${date}“. Wählen Sie einen von diesen.`,
    },

    start: {
      title: (date) => `Bevor Sie beginnen, ${formatDay(date)}`,
      otherDay: (planned, today) =>
        `Diese Bonitur ist für den ${formatDay(planned)} geplant; heute ist der ${formatDay(today)}.`,
      rateToday: 'Sie wird heute bonitiert',
      movedToToday: 'An einem anderen Tag bonitiert als geplant',
      name: 'Ihr Name oder Kürzel',
      nameHint: 'Steht neben dem, was Sie hier entscheiden. Es beweist nicht, wer es eingetragen hat.',
      nameAsked: 'Tragen Sie zuerst Ihren Namen oder Ihr Kürzel ein.',
      conditions: 'Bedingungen des Tages',
      conditionsMissing: 'Tage seit dem Mähen, Tau, Himmel und Wuchsstadium sind noch nicht notiert.',
      conditionsThere: 'Notiert.',
      conditionsNote: 'Notieren',
      conditionsChange: 'Ändern',
      why: 'Auf dem Feld notiert',
      go: (plot) => `Zu Parzelle ${plot}`,
    },

    reEntry: {
      title: 'Bevor Sie die Parzellen betreten',
      short: {
        passed: 'Wiederbetretungsfrist ist vorbei.',
        'not-passed': 'Nicht betreten.',
        unknown: 'Wiederbetretungsfrist unbekannt.',
      },
      'not-passed': 'Nach der eingetragenen Wiederbetretungsfrist darf noch niemand die Parzellen betreten.',
      unknown:
        'Niemand hat eingetragen, wie lange die Fläche gemieden werden muss. Lesen Sie die Gebrauchsanleitung, bevor Sie eine Parzelle betreten.',
      caution:
        'Es gelten die Gebrauchsanleitung des Mittels und die örtlichen Vorschriften. Früher betreten darf nur, wer dazu befugt ist, mit der Schutzausrüstung, die die Gebrauchsanleitung nennt.',
      leave: 'Fernbleiben',
      confirm: 'Ich habe die Gebrauchsanleitung gelesen und mache weiter',
      kept: 'Dass Sie weitergemacht haben, wird mit Ihrem Namen und der Uhrzeit aufbewahrt.',
    },

    plot: (plot) => `Parzelle ${plot}`,
    place: (number, of) => `Stelle ${formatCount(number)} von ${formatCount(of)}`,
    lies: (row, column) => `Reihe ${formatCount(row)}, Spalte ${formatCount(column)}`,
    progress: (done, of) => `${formatCount(done)} von ${formatCount(of)}`,
    progressLabel: 'Fotografiert',
    map: (plot, row, rows, column, columns) =>
      `Karte: Sie sind bei Parzelle ${plot}, Reihe ${formatCount(row)} von ${formatCount(rows)} von vorn, Spalte ${formatCount(column)} von ${formatCount(columns)} von links. Wählen Sie eine andere Parzelle.`,
    mapHint: 'Sie sind hier',
    front: 'vorn',
    frame: {
      title: 'Ort des Rahmens',
      from: (corner) => `Von der Ecke ${corner}`,
      across: (across) => `${metres(across)} quer`,
      along: (along) => `${metres(along)} längs`,
      picture: (corner, across, along) =>
        `Die Rahmenecke liegt ${metres(across)} quer und ${metres(along)} längs von der Parzellenecke ${corner}.`,
      mark: (corner) => `Marke des Rahmens: ${corner}`,
      none: 'Rahmen irgendwo in der Parzelle.',
    },
    guide: (date) => `Hier am ${formatDay(date, 'short')}: Legen Sie den Rahmen ebenso`,
    guideAlt: (plot, date) => `Parzelle ${plot} am ${formatDay(date)}`,
    noGuide: 'Kein früheres Foto dieser Stelle.',

    camera: 'Foto aufnehmen',
    cameraOf: (plot, number) => `Foto von ${placeWords(plot, number)} aufnehmen`,
    retake: 'Wiederholen',
    choose: 'Es ist auf dem Telefon: auswählen',
    storing: 'Das Foto wird gespeichert …',
    missed: (plot, number) =>
      `Das Foto von ${placeWords(plot, number)} ist nicht angekommen. Nehmen Sie es noch einmal auf.`,
    samePhoto: (name, plot, date) =>
      plot === null
        ? `${name} ist schon hier, ohne Parzelle. Nehmen Sie ein anderes Foto auf.`
        : `${name} ist schon hier, bei Parzelle ${plot}${date === null ? '' : ` vom ${formatDay(date, 'short')}`}. Nehmen Sie ein anderes Foto auf.`,
    refused: (reason) => `Das Foto wurde nicht aufgenommen: ${reason} Nehmen Sie es noch einmal auf.`,
    photoOf: (plot) => `Das Foto von Parzelle ${plot}`,
    earlier: (count) => `${photos(count)} dieser Stelle ersetzt`,
    useEarlier: 'Früheres Foto wieder verwenden',
    replacedReason: 'An seiner Stelle wurde ein anderes Foto aufgenommen',
    earlierReason: 'Das frühere Foto wurde wieder gewählt',

    actions: 'Was hier zu tun ist',
    nextPlot: (plot) => `Weiter: ${plot}`,
    back: 'Vorige Parzelle',
    skip: 'Auslassen',
    skipped: (reason) => `Ausgelassen: ${reason}`,
    skipTitle: (plot, number) => `${placeWords(plot, number)} auslassen`,
    skipHint: 'Der Grund wird mit dem Versuch aufbewahrt und steht in seinem Archiv.',
    skipReason: 'Grund',
    skipReasons: [
      'stehendes Wasser',
      'Parzelle beschädigt oder gestört',
      'Menschen oder Maschinen auf der Parzelle',
      'Wiederbetretungsfrist nicht vorbei',
      'kein Licht mehr',
    ],
    skipDo: 'Auslassen',
    cancel: 'Abbrechen',
    finish: 'Zum Ende der Runde',

    list: {
      title: 'Parzellen in Gehreihenfolge',
      state: { taken: 'Foto da', retake: 'wiederholen', skipped: 'ausgelassen', open: 'offen' },
      here: 'Sie sind hier',
      item: (plot, number, state) =>
        `${number === null ? plot : `${plot}, Stelle ${formatCount(number)}`}: ${state}`,
    },

    late: (plot, number) => `${placeWords(plot, number)} wiederholen`,
    hand: {
      left: 'Linke Hand',
      right: 'Rechte Hand',
      toLeft: 'Für die linke Hand',
      toRight: 'Für die rechte Hand',
    },
    more: 'Mehr',
    settings: {
      title: 'Auf dem Feld',
      hand: 'Hand, die das Telefon hält',
      screen: 'Helligkeit des Bildschirms',
      awake: 'Der Bildschirm bleibt an, solange diese Seite vorn ist.',
      notAwake:
        'Dieser Browser lässt den Bildschirm dunkel werden; stellen Sie das Telefon so ein, dass er länger an bleibt.',
      conditions: 'Bedingungen des Tages',
      otherDate: 'Anderer Boniturtermin',
      leave: 'Das Feld verlassen',
    },

    end: {
      title: 'Ende der Runde',
      all: (count) => `Alle ${photos(count)} sind da.`,
      done: (done, of) => `${formatCount(done)} von ${formatCount(of)} fotografiert.`,
      open: (count) => `${formatQuantity(count, 'Stelle ist', 'Stellen sind')} noch offen.`,
      goOpen: (plot) => `Zu Parzelle ${plot}`,
      retake: 'Zu wiederholen',
      skipped: 'Ausgelassen',
      leave: 'Fertig: Fotos zeigen',
    },
  },

  onlyHereText: {
    label: 'Fotos auf diesem Gerät',
    count: (count, onPhone) => `${photos(count)} gibt es nur auf diesem ${onPhone ? 'Telefon' : 'Gerät'}.`,
    none: 'Jedes Foto ist in einem Archiv gesichert.',
    save: 'Archiv speichern',
    saveDate: (date) => `${formatDay(date, 'short')} speichern`,
    saving: (done, of) => `${formatCount(done)} von ${photos(of)} gespeichert …`,
    saved: (count) => `${photos(count)} gespeichert. Kopieren Sie die Datei auf ein anderes Gerät.`,
    cancelled: 'Abgebrochen; nichts wurde gespeichert.',
    failed: (reason) => `Das Archiv konnte nicht geschrieben werden: ${reason}`,
    fileName: 'archiv',
    description: 'Archiv eines Versuchs',
  },

  variableNames: {
    colour: 'Dunkelgrün-Farbindex',
    cover: (plain) => `Deckung ${plain}`,
    groups: {
      ryegrass: 'Raigras',
      'weedy-grass': 'Ungras',
      'bare-ground': 'Boden',
      'base-turf': 'Grundrasen',
      'broadleaf-weeds': 'zweikeimblättrige Unkräuter',
    },
    inSentence: (name) => name,
    points: ' Punkte',
  },

  methodText: METHODS,

  transformText: TRANSFORMS,

  compareText: {
    title: 'Vergleich',
    parts: 'Teile des Vergleichs',
    part: {
      result: 'Ergebnis',
      season: 'Über die Termine',
      pictures: 'Bilder',
      turf: 'Rasen',
      programme: 'Programm',
      checks: 'Prüfung',
      declared: 'Festgelegt',
    },
    opening: 'Der Vergleich wird geöffnet …',
    failed: (reason) => `Der Vergleich brach ab: ${reason} Öffnen Sie den Bereich neu; nichts ist verloren.`,
    working: 'Wird verglichen …',
    cancel: 'Abbrechen',

    noTrial: {
      title: 'Noch nichts zu vergleichen',
      sentence:
        'Ein Vergleich braucht einen Versuch: Parzellen mit ihren Prüfgliedern. Planen Sie ihn, und Fotos und Bonituren finden ihre Parzellen.',
      go: 'Versuch planen',
    },
    unreadable: 'Der Plan ist nicht lesbar. Der Bereich Plan sagt, warum; bis dahin wird nichts verglichen.',
    noPlots: {
      sentence:
        'Der Plan hat noch keine Parzellen. Mit einem Lageplan lassen sich Fotos und Bonituren nach Prüfglied vergleichen.',
      go: 'Parzellen anlegen',
    },
    noValues: {
      sentence: (what, how) =>
        `Noch hat keine Parzelle einen Wert für ${what}${how === null ? '' : ` (Werte ${how})`}. Gemessene Fotos, die auf einer Parzelle mit Boniturtermin liegen, erscheinen hier von selbst.`,
      photos: 'Fotos und Parzellen',
      scores: 'Bonituren',
    },

    declare: {
      title: 'Zuerst festlegen',
      sentence:
        'Was entscheidet, wird festgelegt, bevor die Prüfglieder zu sehen sind: Wer Ergebnisse kennt, kann nicht mehr frei wählen. Bis dahin stehen die Prüfglieder unter Codes, und nichts wird nach Prüfglied gezeigt. Spätere Änderungen sind Nachträge mit Grund; nichts wird überschrieben.',
      there: 'Was da ist',
      thereSentence: 'Parzellen mit einem Wert, nach Code und Boniturtermin. Die Codes sind gemischt.',
      plots: (there, all) => `${there} von ${all}`,
      variable: 'Hauptgröße',
      method: 'Werte',
      when: 'Was entscheidet',
      area: 'Fläche unter der Kurve, alle Termine',
      transform: 'Transformation',
      alpha: 'Signifikanzniveau',
      threshold: 'Wirkung gilt als verloren über',
      thresholdHint: 'Leer lassen, wenn nach der Wirkungsdauer nicht gefragt ist.',
      pressure: 'Kleinstes Mittel der unbehandelten Kontrolle',
      pressureHint: 'Darunter gibt es zu wenig zu bekämpfen; der Befund sagt es dann.',
      who: 'Ihr Name oder Kürzel',
      reason: 'Grund des Nachtrags',
      whoHint:
        'Wird mit der Festlegung aufbewahrt. Ein eingetippter Name sagt, wer gezeichnet hat, nicht, wer am Gerät saß.',
      go: 'Auswertung festlegen',
      amend: 'Festlegung nachtragen',
      keep: 'Nachtrag behalten',
      notKept:
        'Nicht behalten: Inzwischen hat jemand anderes etwas festgelegt. Sehen Sie die neueste Festlegung an und versuchen Sie es noch einmal.',
      allPlots: 'Jede Parzelle mit einem Wert hat einen von dieser Art.',
      missing: (plots, day, instead) =>
        `Am ${formatDay(day, 'short')} ${plots.length === 1 ? 'hat 1 Parzelle' : `haben ${formatCount(plots.length)} Parzellen`} keinen solchen Wert: ${andMore(plots)}. Sie würden als Parzellen fehlen.` +
        (instead.length > 0
          ? ` Alle Parzellen haben Werte ${andMore(instead.map((one) => METHODS[one]))}.`
          : ''),
      fromPlan: 'Damit festgelegt, aus dem Plan',
      experiment: 'Ändern Sie es im Plan, bevor Sie festlegen.',
      number: (field, met, allowed) => `${field} ist „${met}“; erlaubt: ${allowed}.`,
      alphaAllowed: 'eine Zahl über 0 und unter 1, z. B. 0.05',
      numberAllowed: 'eine Zahl, z. B. 10, oder nichts',
      pressureAllowed: 'eine Zahl ab 0',
    },

    declared: {
      title: 'Festgelegte Auswertung',
      by: (who, when) => `Festgelegt von ${who}, ${when}.`,
      amendedBy: (who, when, reason) => `Nachtrag von ${who}, ${when}: ${reason}`,
      history: 'Frühere Festlegungen',
      unreadable:
        'Die neueste Festlegung stammt von einer neueren Version dieses Programms und ist hier nicht lesbar. Aktualisieren Sie das Programm, oder tragen Sie eine Festlegung nach.',
      drift: (drifts) =>
        `Der Plan hat sich seit der Festlegung geändert: ${andMore(drifts.map((one) => DRIFTS[one]))}. Der Vergleich bleibt wie festgelegt, bis ein Nachtrag es ändert.`,
      lines: (declared, words) => [
        ['Hauptgröße', words.name],
        ['Werte', declared.method === null ? 'Bonituren' : METHODS[declared.method]],
        [
          'Was entscheidet',
          declared.when.kind === 'area'
            ? 'Fläche unter der Kurve, alle Termine'
            : formatDay(declared.when.ratingDate),
        ],
        ['Transformation', TRANSFORMS[declared.transform]],
        ['Signifikanzniveau', String(declared.alpha)],
        [
          'Wirkung gilt als verloren über',
          declared.controlThreshold === null
            ? 'nicht gefragt'
            : `${String(declared.controlThreshold)}${words.unit}`,
        ],
        ['Kleinstes Mittel der Kontrolle', `${String(declared.minimumPressure)}${words.unit}`],
        ['Klassen', declared.classes.map(({ name }) => name).join('; ')],
        [
          'Kleine Lücken',
          declared.gapRule.kind === 'every-pixel'
            ? 'jedes Pixel zählt'
            : `offene Stellen kleiner als ${declared.gapRule.smallerThanMm} mm zählen als ihre Umgebung`,
        ],
        [
          'Ausschlüsse',
          declared.exclusions.length === 0
            ? 'keine'
            : declared.exclusions
                .map(
                  ({ plot, ratingDate, variable, reason }) =>
                    `Parzelle ${plot}${ratingDate === null ? '' : `, ${formatDay(ratingDate, 'short')}`}${variable === null ? '' : `, ${variable}`}: ${reason}`,
                )
                .join('; '),
        ],
      ],
    },

    shown: {
      variable: 'Größe',
      date: 'Boniturtermin',
      declaredMark: (name) => `${name} (festgelegt)`,
      decides: (day) => `${day} (entscheidet)`,
      exploratory: 'Erkundend: nicht, was als entscheidend festgelegt wurde.',
    },

    finding: {
      title: 'Befund',
      confidence: (percent) =>
        `Die Intervalle der Differenzen zur Kontrolle gelten zusammen mit ${percent} % (Dunnett).`,
      pending: 'Der festgelegte Vergleich wird gerechnet …',
      notRated: (day) =>
        `Am ${formatDay(day)}, dem als entscheidend festgelegten Termin, wurde nichts bonitiert; es gibt daher noch keinen Befund.`,
      areaNeedsDates:
        'Die Fläche unter der Kurve entscheidet; sie braucht Parzellen mit zwei Boniturterminen oder mehr. Es gibt daher noch keinen Befund.',
    },

    means: {
      overDates: (name, from, to) =>
        `${name}, Mittel über die Zeit vom ${formatDay(from)} bis ${formatDay(to)}`,
      treatment: 'Prüfglied',
      applications: 'Anwendungen',
      done: ({ done, total }) => (total === 0 ? 'keine' : `${done} von ${total}`),
      toCome: 'noch ausstehend, nicht beurteilt',
      mean: (unit) => (unit ? `Mittel, ${unit}` : 'Mittel'),
      limits: (percent) => `${percent}-%-Grenzen`,
      difference: 'Gegen Kontrolle',
      control: 'unbehandelte Kontrolle',
      percentControl: '% Wirkung',
      between: (low, high) => `${low} bis ${high}`,
      letters: 'Für Mittel mit gemeinsamem Buchstaben ist kein Unterschied gezeigt (a: das höchste).',
      adjacent: (n, mean) =>
        `Die unbehandelte Kontrolle neben dem Versuch (${formatQuantity(n, 'Parzelle', 'Parzellen')}, Mittel ${mean}) liegt außerhalb der Randomisation und nimmt an der Auswertung nicht teil.`,
      errors: (values) =>
        `CV ${values.cv}. Standardfehler einer Differenz ${values.sed}. LSD ${values.lsd}, HSD ${values.hsd} bei ${values.alpha}; ${values.df} Fehlerfreiheitsgrade.`,
      anova: 'Varianzanalyse',
      notes: (count) => formatQuantity(count, 'Anmerkung', 'Anmerkungen'),
      missing: (plots) =>
        `${formatQuantity(plots.length, 'Parzelle', 'Parzellen')} ohne Wert: ${andMore(plots)}.`,
      scroll: (title) => `Tabelle: ${title}`,
      save: 'Vergleich speichern (JSON)',
    },

    anova: {
      source: 'Ursache',
      df: 'FG',
      sumOfSquares: 'Quadratsumme',
      meanSquare: 'Mittleres Quadrat',
      sources: {
        block: 'Block',
        row: 'Reihe',
        column: 'Spalte',
        treatment: 'Prüfglied',
        residual: 'Rest',
      },
      between: 'Zwischen Parzellen',
      within: 'Innerhalb der Parzellen, über die Termine',
      mixed: 'Gemischtes Modell, Parzellen zufällig',
      denominatorDf: 'Fehler-FG',
    },

    season: {
      one: 'Ein Boniturtermin: Über die Termine gibt es noch nichts zu vergleichen.',
      pending: 'Termine werden verglichen …',
      area: 'Mittel über die Zeit',
      tests: 'Tests über die Termine',
      length: 'Wirkungsdauer',
      lengthSentence: (threshold, from) =>
        `Tage ab Aussaat (${formatDay(from)}), bis das Mittel des Prüfglieds ${threshold} überschritt. Zwischen zwei Bonituren hat niemand hingesehen; es ist daher eine Spanne.`,
      noLength: 'Die Festlegung fragt nicht nach der Wirkungsdauer.',
      noSowing: 'Der Plan hat kein Aussaatdatum, ab dem sich zählen ließe.',
      held: 'Nicht darüber bis',
      passed: 'Darüber am',
      days: 'Tage',
      atLeast: (days) => `${days} oder mehr`,
      atMost: (days) => `${days} oder weniger`,
      between: (from, to) => `${from} bis ${to}`,
      lines: 'Jede Parzelle über die Zeit',
      overTime: (name) => `${name} über die Zeit`,
    },

    bars: (name, day) => `${name} nach Prüfglied, ${formatDay(day, 'short')}`,

    pictures: {
      pair: 'Unbehandelt neben behandelt',
      treated: 'Behandelt',
      nearest: (control, treated, block) =>
        `Nach Regel gewählt: ${block === null ? 'die Parzellen' : 'der Block, dessen zwei Parzellen'} den Mitteln ihrer Prüfglieder am nächsten liegen (${control} und ${treated}).`,
      noPair: 'An diesem Termin hat kein Block sowohl eine unbehandelte als auch diese behandelte Parzelle.',
      noControl: 'Der Plan hat im Versuch keine unbehandelte Kontrolle, die sich danebenstellen ließe.',
      lost: 'Der Browser hat eines der beiden Fotos nicht mehr; nebeneinander lassen sie sich daher nicht zeigen.',
      map: (name, day) => `${name} im Gelände, ${formatDay(day, 'short')}`,
      matrix: 'Parzellen nach Termin',
      show: 'Zeigen',
      photo: 'Fotos',
      mask: 'Masken',
      noPhotos: 'Noch liegt kein Foto auf einer Parzelle.',
      noPicture: 'kein Bild',
      several: (count) => `1 von ${count}`,
    },

    turf: {
      title: 'Der Rasen selbst',
      sentence:
        'Was ein Programm mit dem Rasen macht: seine Deckung, offener Boden, was nach Augenschein bonitiert wurde, und seine Farbe. Alles erkundend, wenn nicht festgelegt; jedes wird an diesem Termin mit der unbehandelten Kontrolle verglichen.',
      higher: 'höher',
      lower: 'niedriger',
      notShown: 'nicht gezeigt',
      colour:
        'Dunkelgrün-Farbindex der als Rasen gemessenen Pixel (mittlere Farbe, nach Karcher und Richardson 2003). Er hängt von Licht und Kamera ab; Prüfglieder werden daher nur innerhalb eines Termins mit der Kontrolle verglichen.',
      colourAcross: (balanced, all) =>
        all > 0 && balanced === all
          ? 'Jedes Foto ist nach einer Graukarte abgeglichen: Termine lassen sich mit Vorsicht nebeneinanderstellen, bei einem Telefon.'
          : `Termine oder Telefone werden nicht verglichen: ${balanced} von ${photos(all)} haben eine Graukarte, und die Farben eines Termins werden alle oder keine abgeglichen.`,
      noColour:
        'Noch ist keine Farbe gemessen. Fotos, die gemessen wurden, bevor die Farbe aufbewahrt wurde, haben keine, bis sie neu gemessen werden.',
      withoutRatings:
        'Nach Augenschein bonitierte Schäden und Qualität kommen hierher, sobald der Plan eine solche Größe und Bonituren hat.',
      scores: 'Bonituren',
    },

    programme: {
      title: 'Programme',
      applications: 'Anwendungen',
      modes: 'Wirkmechanismen',
      cost: 'Kosten je Hektar',
      withoutCost: (names) => `ohne die Kosten von ${andMore(names)}`,
      currency: 'Währung des Versuchs',
      chart: (name) => `Kosten gegen ${name}`,
      noCost:
        'Kein Mittel hat im Plan einen Preis; es gibt daher nichts, wogegen sich Kosten zeichnen ließen.',
      plan: 'Anwendungen im Plan',
      experimental: 'versuchsweise',
      unknownModes: 'nicht eingetragen',
    },

    checks: {
      residuals: 'Residuen',
      fitted: 'Residuen gegen angepasste Mittel',
      quantiles: 'Normalquantile der Residuen',
      noResiduals: 'Es gibt keine Fehlerfreiheitsgrade; es bleibt daher nichts anzusehen.',
      scale: (name, transform) => (transform === 'none' ? name : `${name}, ${TRANSFORMS[transform]}`),
      sensitivity: 'Mit und ohne Ausschlüsse',
      noExclusions: 'Nichts ist ausgeschlossen: Der Vergleich umfasst alle Parzellen, die einen Wert haben.',
      asDeclared: 'Wie festgelegt',
      all: 'Alle Parzellen',
      change: (count) =>
        count === 0
          ? 'Mit allen Parzellen sind die Buchstaben dieselben.'
          : `Mit allen Parzellen ändern sich die Buchstaben von ${formatQuantity(count, 'Prüfglied', 'Prüfgliedern')}.`,
      data: 'Werte',
      withoutPlot: (count) =>
        `${formatQuantity(count, 'Foto oder eine Bonitur liegt', 'Fotos oder Bonituren liegen')} auf keiner Parzelle des Plans oder ${count === 1 ? 'hat' : 'haben'} keinen Termin.`,
      withoutMethod: (count, method) =>
        `${formatQuantity(count, 'Foto hat', 'Fotos haben')} keinen Wert, der ${METHODS[method]} ist.`,
      complete: 'Jedes Foto mit einem Wert liegt auf einer Parzelle und hat einen Wert der festgelegten Art.',
      tests: {
        normal: (w, p) => `Normalverteilte Residuen: Shapiro-Wilk W ${w}, p ${p}.`,
        equal: (p) => `Gleiche Varianzen: Brown-Forsythe p ${p}.`,
        largest: (plot, size, p) =>
          `Größtes Residuum: Parzelle ${plot}, ${size} Standardabweichungen, p ${p}.`,
        additive: (p) => `Blöcke und Prüfglieder addieren sich: Test nach Tukey p ${p}.`,
      },
    },
  },

  findingText: {
    scope: 'Ein Versuch, ein Ort, eine Saison: keine Empfehlung.',
    obstacles: {
      'one-treatment': 'Nur ein Prüfglied hat Werte; es gibt daher nichts, womit es zu vergleichen wäre.',
      'no-error':
        'Je Prüfglied gibt es höchstens eine Parzelle; die Streuung zwischen Parzellen ist daher unbekannt, und kein Unterschied lässt sich prüfen.',
      'no-variation':
        'Die Parzellen eines Prüfglieds streuen gar nicht; es gibt daher keinen Fehler, gegen den sich ein Unterschied prüfen ließe.',
    },
    notTested: (names) => `Für ${treatmentWords(names)} ließ sich nichts prüfen.`,
    lowPressure: (mean, minimum) =>
      `Der Befall war gering: Die unbehandelte Kontrolle hatte ${mean}, weniger als die verlangten ${minimum}. Es gab wenig zu bekämpfen; daher lässt sich wenig sagen.`,
    notJudged: (treatment, total) =>
      `Prüfglied ${treatment} ist nicht beurteilt: Von seinen ${total} Anwendungen ist bis dahin keine als erledigt eingetragen.`,
    applications: (partly) =>
      `Bis dahin erledigte Anwendungen: ${andMore(partly.map(({ treatment, done, total }) => `${done} von ${total} in ${treatment}`))}.`,

    onDate: (day) => `Am ${formatDay(day)}`,
    overTime: (from, to) => `Über die Zeit gemittelt vom ${formatDay(from)} bis ${formatDay(to)}`,
    transformedBack: ' (rücktransformierte Mittel)',

    shownOne: (one) =>
      `${one.when} war ${one.variable} in Prüfglied ${one.treatment} ${DIRECTIONS[one.direction]} als in der unbehandelten Kontrolle: ` +
      `${one.mean} gegen ${one.control}${one.back}, ${one.test}; n = ${one.n} und ${one.controlN}).`,
    shownSeveral: (all) =>
      `${all.when} war ${all.variable} in ${all.count} Prüfgliedern ${DIRECTIONS[all.direction]} als in der unbehandelten Kontrolle ` +
      `(${all.control}, n = ${all.controlN})${all.back}`,
    oneOfSeveral: (treatment, mean, test, n) => `Prüfglied ${treatment} mit ${mean}, ${test}; n = ${n})`,
    ends: (most, least, between) =>
      `am weitesten ${most}; am wenigsten ${least}. Dazwischen ${treatmentWords(between)}; die Werte stehen in der Tabelle.`,
    byTest: (p) => `gezeigt durch den Test (p = ${p}`,
    byInterval: (difference, percent, low, high) =>
      `eine Differenz von ${difference} (${percent}-%-Intervall ${low} bis ${high}`,

    notShownFirst: (when, variable, control, mean, n, means) =>
      `${when} ist für ${variable} kein Unterschied zur unbehandelten Kontrolle (Prüfglied ${control}: ${mean}, n = ${n}) gezeigt bei ${means}.`,
    notShownFurther: (means) => `Kein Unterschied zur Kontrolle ist gezeigt für ${means}.`,
    noticeable: (difference) =>
      `Ein wahrer Unterschied kleiner als etwa ${difference} hätte leicht übersehen werden können.`,
    noticeableUnknown: 'Wie klein ein übersehener Unterschied sein könnte, lässt sich nicht sagen.',
    noticeableTransformed:
      'Wie klein ein übersehener Unterschied sein könnte, wird auf einer transformierten Skala nicht angegeben.',

    means: (when, variable, means) => `${when} waren die Mittel der Prüfglieder für ${variable}: ${means}.`,
    noControl: 'Keine unbehandelte Kontrolle nimmt teil; nichts sagt daher, wie viel es zu bekämpfen gab.',

    lowerThan: (treatment, higher) => `${treatment} war niedriger als ${andMore(higher)}`,
    amongTreated: (parts) => `Unter den behandelten: ${parts} (Tukey).`,
    byPairs: (variable, parts) => `Paarweise für ${variable}: ${parts} (Tukey).`,
    manyPairs: (shown, all, amongTreated) =>
      `${amongTreated ? 'Unter den behandelten sind' : 'Es sind'} ${shown} von ${all} Paaren als verschieden gezeigt (Tukey); welche, sagen die Buchstaben der Tabelle.`,
  },

  listed: andMore,

  sampleTrialText: {
    fetching: 'Der Beispielversuch wird geholt …',
    progress: (done, all) => `Der Beispielversuch wird geholt: ${formatCount(done)} von ${photos(all)}`,
    progressLabel: 'Stand des Holens',
    cancel: 'Abbrechen',
    cancelled: 'Nichts wurde aufgenommen.',
    failed: (reason) =>
      `Der Beispielversuch konnte nicht aufgenommen werden: ${reason}. Nichts ist geändert; versuchen Sie es noch einmal, mit Verbindung.`,
    otherTrial: (here) =>
      `Hier ist schon ein Versuch (${here}), und dieser Browser hält immer nur einen. Speichern Sie ihn als Archiv und entfernen Sie ihn im Plan, oder sehen Sie den Beispielversuch in einem anderen Browser an.`,
    storage: (reason) => `Dieser Browser kann den Beispielversuch nicht aufbewahren: ${reason}`,
    mark: 'Beispielversuch: gerechnete Fotos, erfundene Prüfglieder und Ergebnisse. Durchsichten, Korrekturen und Zählungen stammen von einem Skript.',
    short: 'Beispielversuch: gerechnet und erfunden.',
    remove: 'Wegnehmen',
    removing: {
      title: 'Den Beispielversuch wegnehmen?',
      body: 'Sein Plan, seine Fotos und Werte gehen, mit allem, was Sie daran versucht haben. Ihre eigenen Fotos bleiben. Er lässt sich wieder öffnen, wie er war.',
      confirm: 'Wegnehmen',
      keep: 'Behalten',
      failed: (reason) => `Er ließ sich nicht wegnehmen: ${reason}`,
    },
  },

  planText: {
    title: 'Plan',
    parts: 'Teile des Plans',
    part: {
      trial: 'Versuch',
      treatments: 'Prüfglieder',
      applications: 'Anwendungen',
      layout: 'Lageplan',
      photos: 'Fotos',
      calendar: 'Kalender',
      scores: 'Bonituren',
      frame: 'Rahmen',
      labels: 'Etiketten',
      records: 'Protokoll',
    },
    opening: 'Der Plan wird geöffnet …',
    failed: (reason) => `Der Plan ließ sich nicht öffnen: ${reason}`,
    retry: 'Noch einmal versuchen',
    cancel: 'Abbrechen',
    save: 'Speichern',
    add: 'Hinzufügen',
    edit: 'Ändern',
    remove: 'Entfernen',
    choose: 'Wählen',
    problems: (count) =>
      `${formatQuantity(count, 'Angabe', 'Angaben')} in diesem Plan ${count === 1 ? 'widerspricht' : 'widersprechen'} anderen:`,
    more: (count) => `${count} weitere`,
    queries: (count) => `${formatQuantity(count, 'Frage', 'Fragen')}:`,

    signature: {
      label: 'Ihr Name oder Kürzel',
      hint: 'Jede Änderung des Plans wird mit dem alten Wert und diesem Namen aufbewahrt. Ein eingetippter Name sagt, wer gezeichnet hat, nicht, wer am Gerät saß.',
      title: 'Wer arbeitet am Plan?',
      go: 'Plan öffnen',
      signedBy: (who) => `Änderungen zeichnet ${who}.`,
      other: 'Anders zeichnen',
      why: 'Plan bearbeitet',
      placed: 'Foto von Hand zu seiner Parzelle gelegt',
      scored: 'neu bonitiert',
      weather: 'Wettertabelle eingelesen',
    },

    reason: {
      title: 'Ist diese Änderung gemeint?',
      label: 'Grund, wird mit der Änderung aufbewahrt',
      keep: 'Ändern',
    },

    start: {
      title: 'Einen Versuch planen',
      sentence:
        'Sind Parzellen, Prüfglieder und Boniturtermine bekannt, findet jedes Foto seine Parzelle, und Werte lassen sich nach Prüfglied vergleichen.',
      name: 'Name des Versuchs',
      site: 'Standort',
      species: 'Rasenart',
      needed: {
        who: 'Tragen Sie zuerst Ihren Namen oder Ihr Kürzel ein: Jede Änderung des Plans wird gezeichnet.',
        name: 'Der Versuch braucht einen Namen.',
        site: 'Der Versuch braucht einen Standort.',
        species: 'Der Versuch braucht seine Rasenart.',
      },
      go: 'Versuch beginnen',
      sample: 'Beispielplan verwenden',
      sampleHint:
        '16 Parzellen eines erfundenen Versuchs, vier Prüfglieder, vier Boniturtermine; er gehört zu den Beispielfotos.',
      sampleName: 'Außenfeld Ost (Beispiel)',
      open: 'Plandatei öffnen',
      openProblems: (name) => `${name} wurde nicht geöffnet:`,
    },

    unreadable: {
      title: 'Der Plan ist nicht lesbar',
      sentence:
        'Er bleibt, wie er ist. Speichern Sie ihn als Datei, oder aktualisieren Sie das Programm, falls eine neuere Version ihn geschrieben hat.',
      save: 'Plan speichern, wie er liegt',
    },

    trial: {
      general: 'Allgemein',
      code: 'Code auf Etiketten',
      latitude: 'Breite (Grad, Süden negativ)',
      longitude: 'Länge (Grad, Westen negativ)',
      siteNotes: 'Notizen zum Standort',
      turf: 'Rasen',
      cultivar: 'Sorte',
      sownOver: 'Gesät in',
      sowing: 'Aussaat',
      sowingDate: 'Aussaatdatum',
      sowingHint:
        'Geplante Tage, die ab der Aussaat zählen, wandern mit; was erledigt ist, behält seinen Tag.',
      sowingRate: 'Saatstärke',
      unit: (of) => `Einheit: ${of}`,
      unitShort: 'Einheit',
      ground: 'Boden',
      mowing: 'Schnitthöhe (mm)',
      mowingNotes: 'Notizen zum Mähen',
      soil: 'Notizen zum Boden',
      irrigation: 'Notizen zur Beregnung',
      plotSize: 'Parzellengröße',
      plotSizeHint:
        'Brutto: die behandelte Fläche. Netto: der bonitierte Teil; der Rest ist Rand. Alle vier oder keine.',
      grossWidth: 'Bruttobreite (mm)',
      grossLength: 'Bruttolänge (mm)',
      netWidth: 'Nettobreite (mm)',
      netLength: 'Nettolänge (mm)',
      plotSizeHalf: 'Füllen Sie alle vier aus, oder leeren Sie alle.',
      rateHalf: 'Geben Sie Menge und Einheit an, oder keines von beiden.',
      measuring: 'Was als Deckung zählt',
      raters: 'Wer bonitiert',
      ratersHint: 'Namen oder Kürzel, durch Kommas getrennt.',
      file: 'Plandatei',
      saveFile: 'Plan als Datei speichern',
      removeTrial: 'Versuch entfernen',
      removeSentence:
        'Plan, Bonituren und Wetter gehen; Fotos und ihre Werte bleiben. Was der Versuch war, bleibt im Änderungsprotokoll.',
    },

    treatments: {
      number: 'Nummer',
      name: 'Prüfglied',
      control: 'Unbehandelte Kontrolle',
      controlChoices: { '': 'nein', included: 'im Versuch', adjacent: 'daneben' },
      applications: 'Anwendungen',
      ofWhichDone: (done) => `${done} erledigt`,
      modes: 'Wirkmechanismen',
      cost: 'Kosten je ha',
      controlHint:
        'Im Versuch: mit den anderen randomisiert. Daneben: neben den Parzellen, außerhalb von Randomisation und Auswertung.',
      add: 'Prüfglied hinzufügen',
      newName: (number) => `Prüfglied ${number}`,
      empty:
        'Noch keine Prüfglieder. Fügen Sie sie hier hinzu, oder lesen Sie im Lageplan die Tabelle der Parzellen mit den Namen der Prüfglieder ein.',
      removeNumber: (number) => `Prüfglied ${number} entfernen`,
      nameOf: (number) => `Name von Prüfglied ${number}`,
      notes: 'Notizen',
      notesOf: (number) => `Notizen zu Prüfglied ${number}`,
      controlOf: (number) => `Prüfglied ${number}: unbehandelte Kontrolle`,
      caption: 'Prüfglieder, und worauf sie sich über die Saison belaufen',
      limits: 'Höchstmengen der Saison',
      limitsHint:
        'Wie Sie es in der Gebrauchsanleitung lesen; die Saisonsumme jedes Prüfglieds wird daran gehalten.',
      limitOf: { product: 'Mittel', 'active-ingredient': 'Wirkstoff' },
      limitKind: 'Was begrenzt ist',
      limitName: 'Sein Name',
      limitAmount: 'Höchstens',
      limitAdd: 'Höchstmenge hinzufügen',
      limitRemove: (name) => `Höchstmenge von ${name} entfernen`,
      totals: (treatment, total, most) => `Prüfglied ${treatment}: ${total} von höchstens ${most}`,
    },

    applications: {
      add: 'Anwendung hinzufügen',
      empty: 'Noch keine Anwendungen.',
      caption: 'Anwendungen nach Tag',
      id: 'Kurzname',
      treatments: 'Prüfglieder',
      description: 'Was geschieht',
      day: 'Tag',
      timing: 'Zeitpunkt',
      state: 'Stand',
      products: 'Mittel',
      newTitle: 'Neue Anwendung',
      editTitle: (id) => `Anwendung ${id}`,
      editOne: (id) => `Anwendung ${id} ändern`,
      timingKind: {
        date: 'an einem Tag',
        'from-sowing': 'ab der Aussaat gezählt',
        'from-application': 'ab einer anderen Anwendung gezählt',
        'growth-stage': 'in einem Entwicklungsstadium',
      },
      date: 'Tag',
      amount: 'Wie viele',
      distanceUnit: 'Tage oder Wochen',
      side: 'Vorher oder nachher',
      units: { days: 'Tage', weeks: 'Wochen' },
      sides: { before: 'vorher', after: 'nachher' },
      after: 'Anwendung, ab der gezählt wird',
      stage: 'Entwicklungsstadium',
      expected: 'Erwarteter Tag',
      windowBefore: 'Darf früher sein um (Tage)',
      windowAfter: 'Darf später sein um (Tage)',
      temperature: 'Ihr eigener Temperaturbereich',
      temperatureOf: 'Temperatur von',
      temperatureChoices: { '': 'keiner', air: 'Luft', soil: 'Boden' },
      least: 'Mindestens (°C)',
      most: 'Höchstens (°C)',
      meanOfDays: 'Mittel aus (Tagen)',
      product: (position) => `Mittel ${position}`,
      productName: 'Mittel',
      addProduct: 'Mittel hinzufügen',
      removeProduct: (position) => `Mittel ${position} entfernen`,
      rate: 'Aufwandmenge',
      rateUnit: 'Einheit',
      use: 'Anwendung',
      uses: { '': 'Wählen', label: 'nach Gebrauchsanleitung', experimental: 'versuchsweise' },
      costPerHectare: 'Kosten je ha',
      ingredient: 'Wirkstoff',
      mode: 'Gruppe des Wirkmechanismus',
      content: 'Gehalt',
      ingredientsHint: 'Mehrere: Namen, Gruppen und Gehalte in gleicher Reihenfolge mit „;“ trennen.',
      spraying: 'Wie es ausgebracht wird',
      carrier: 'Wasseraufwand',
      pressure: 'Druck',
      equipment: 'Gerät',
      nozzle: 'Düse',
      reEntry: 'Wiederbetretungsfrist (Stunden)',
      reEntryHint: 'Wie Sie es in der Gebrauchsanleitung lesen.',
      progress: 'Erledigt oder geplant',
      progressChoices: { planned: 'geplant', done: 'erledigt', 'left-out': 'ausgelassen' },
      doneOn: 'Erledigt am',
      finishedAt: 'Fertig um (HH:MM)',
      by: 'Von',
      deviations: 'Was anders gemacht wurde',
      weather: 'Wetter dabei',
      air: 'Luft (°C)',
      soil: 'Boden (°C)',
      humidity: 'Relative Feuchte (%)',
      wind: 'Wind',
      cloud: 'Bewölkung (%)',
      whyLeftOut: 'Warum ausgelassen',
      experimental: 'versuchsweise',
      notKept: (count) =>
        `Nicht behalten: ${formatQuantity(count, 'Feld oben kann', 'Felder oben können')} so nicht bleiben.`,
      untilDay: (day, days) =>
        days === 0
          ? `${formatDay(day, 'short')}, heute`
          : days > 0
            ? `${formatDay(day, 'short')}, in ${formatQuantity(days, 'Tag', 'Tagen')}`
            : `${formatDay(day, 'short')}, vor ${formatQuantity(-days, 'Tag', 'Tagen')}`,
    },

    tables: {
      read: {
        treatments: 'Prüfglieder einlesen (CSV)',
        plots: 'Parzellen einlesen (CSV)',
        applications: 'Anwendungen einlesen (CSV)',
        ratings: 'Boniturtermine einlesen (CSV)',
      },
      write: {
        treatments: 'Prüfglieder speichern (CSV)',
        plots: 'Parzellen speichern (CSV)',
        applications: 'Anwendungen speichern (CSV)',
        ratings: 'Boniturtermine speichern (CSV)',
      },
      taken: (name) => `${name} ist eingelesen.`,
      refused: (name, count) =>
        `${name} wurde nicht eingelesen; der Plan bleibt, wie er ist. ${formatQuantity(count, 'Sache', 'Sachen')} zu berichtigen:`,
    },

    layout: {
      draw: 'Lageplan auslosen',
      design: 'Anlage',
      designs: {
        'randomized-complete-block': 'Randomisierte vollständige Blöcke',
        'completely-randomized': 'Vollständig randomisiert',
        'latin-square': 'Lateinisches Quadrat',
      },
      blocks: 'Blöcke',
      replicates: 'Parzellen je Prüfglied',
      rowsPerBlock: 'Parzellenreihen je Block',
      blocksAcross: 'Blöcke nebeneinander',
      rowsWide: 'Parzellen je Reihe, mal Prüfglieder',
      numbering: 'Parzellennummern',
      numberings: { 'by-block': '101, 102, .. 201, nach Block', 'in-order': '1, 2, 3, .. der Reihe nach' },
      seed: 'Startzahl',
      seedHint: (most) =>
        `0 bis ${most}. Dieselbe Startzahl lost auf jedem Gerät denselben Lageplan wieder aus.`,
      otherSeed: 'Andere Startzahl',
      drawIt: 'Lageplan auslosen',
      drawAgain: 'Den Lageplan neu auslosen?',
      drawAgainSentence: (plots) =>
        `${plots === 1 ? 'Die eine vorhandene Parzelle wird' : `Die ${formatCount(plots)} vorhandenen Parzellen werden`} ersetzt; die alten bleiben im Änderungsprotokoll.`,
      needsTreatments:
        'Ein Lageplan braucht zwei oder mehr Prüfglieder, die randomisiert werden. Fügen Sie sie unter Prüfglieder hinzu.',
      map: 'Karte der Parzellen',
      mapHelp:
        'Karte: Pfeiltasten bewegen, die Eingabetaste nimmt eine Parzelle auf und tauscht sie mit einer anderen, Esc lässt los',
      mapCaption: 'Reihe 1 liegt vorn. Groß: Prüfglied; oben links: Parzelle; oben rechts: Stelle im Gang.',
      mapHint:
        'Ziehen Sie eine Parzelle auf eine andere (mit dem Finger: erst halten), oder tippen Sie auf die eine und dann auf die andere, um ihre Prüfglieder zu tauschen.',
      adjacent: 'neben den Parzellen',
      addAdjacent: (treatment) => `Prüfglied ${treatment}: neben die Blöcke legen`,
      removeAdjacent: (treatment, plots) =>
        `Prüfglied ${treatment}: seine ${formatQuantity(plots, 'Parzelle', 'Parzellen')} wegnehmen`,
      inTheWalk: 'im Gang,',
      picked: (plot) => `Parzelle ${plot} aufgenommen. Wählen Sie die Parzelle zum Tauschen.`,
      unpicked: 'Losgelassen.',
      swapped: (first, second) => `Prüfglieder der Parzellen ${first} und ${second} getauscht.`,
      print: 'Karte drucken',
      walk: 'Gehreihenfolge',
      walkLabels: {
        along: 'Entlang der',
        turn: 'Am Ende einer Bahn',
        startRow: 'Beginn in',
        startColumn: 'Beginn bei',
      },
      walkChoices: {
        along: { rows: 'Reihen', columns: 'Spalten' },
        turn: { 'there-and-back': 'umkehren: hin und her', 'same-way': 'zurückgehen: jede Bahn gleich' },
        startRow: { first: 'der ersten Reihe', last: 'der letzten Reihe' },
        startColumn: { first: 'der ersten Spalte', last: 'der letzten Spalte' },
      },
      table: 'Parzellen in Gehreihenfolge',
      position: 'Gang',
      plot: 'Parzelle',
      block: 'Block',
      treatment: 'Prüfglied',
      row: 'Reihe',
      column: 'Spalte',
      treatmentOf: (plot) => `Prüfglied von Parzelle ${plot}`,
      ownHint: 'Um einzelnen Parzellen ein anderes Prüfglied zu geben, wird der Lageplan zu einem eigenen.',
      makeOwn: 'Zum eigenen Lageplan machen',
    },

    board: {
      needsPlots: 'Fotos finden ihre Parzellen, wenn es Parzellen gibt. Fügen Sie sie im Lageplan hinzu.',
      needsDates: 'Fotos finden ihre Termine, wenn es Boniturtermine gibt. Fügen Sie sie im Kalender hinzu.',
      states: { there: 'da', missing: 'fehlt', doubtful: 'zweifelhaft', double: 'doppelt' },
      short: { there: 'da', doubtful: 'zweifelhaft', double: 'doppelt' },
      subsamples: (count) => `${count} Fotos`,
      unplaced: 'ohne Parzelle oder Termin',
      add: 'Fotos öffnen',
      caption: 'Fotos nach Parzelle und Boniturtermin, Parzellen in Gehreihenfolge',
      plot: 'Parzelle',
      plotPlace: (plot, place) => `${plot}, Stelle ${place}`,
      cellWords: (plot, place, date, state, photoCount) =>
        `Parzelle ${plot}, Stelle ${place}, ${formatDay(date, 'short')}: ${state}${photoCount > 1 ? `, ${photoCount} Fotos` : ''}`,
      cellTitle: (plot, place, date, places) =>
        `Parzelle ${plot}${places > 1 ? `, Stelle ${place}` : ''}, ${formatDay(date, 'short')}`,
      cellEmpty: 'Hier ist noch kein Foto.',
      held: (count) => `${formatQuantity(count, 'Foto wartet', 'Fotos warten')} auf Sie`,
      heldHint: 'Sehen Sie das Foto an und sagen Sie, wohin es gehört. Bis dahin wird es zurückgehalten.',
      byPerson: 'Von Hand gesagt.',
      alsoHere: (names) =>
        `Auch hier: ${names}. Verschieben Sie eines, oder sagen Sie von beiden, dass sie hierher gehören, um sie als Unterproben zu behalten.`,
      lookingForLabels: (count) =>
        `Parzellenetiketten werden gesucht: noch ${photos(count)}, solange nichts gemessen wird.`,
      labelsTrouble: (detail) =>
        `Parzellenetiketten ließen sich nicht lesen (${detail}). Öffnen Sie die Seite neu, um es noch einmal zu versuchen, oder legen Sie die Fotos von Hand.`,
      camera: (device, count) => `${device} (${photos(count)})`,
      severalCameras: (date, cameras) =>
        `${formatDay(date, 'short')}: Fotos von ${cameras.join(' und ')}. Kameras geben Farben verschieden wieder; ein an einer angelerntes Modell kann sich bei der anderen irren.`,
      boardOf: 'Tafel der',
      photos: 'Fotos',
      scoresCaption: (variable) =>
        `${variable}: wer bonitiert hat, nach Parzelle und Boniturtermin, Parzellen in Gehreihenfolge`,
      scores: (count) => formatQuantity(count, 'Bonitur', 'Bonituren'),
      notRateable: 'nicht zu bonitieren',
      undated: 'Fotos, die keinen Tag nennen, sind vom',
      undatedNone: 'unbekannt: Sie warten',
      takePhoto: 'Foto aufnehmen',
      plotOf: (name) => `Parzelle von ${name}`,
      placeOf: (name) => `Stelle von ${name}`,
      dateOf: (name) => `Termin von ${name}`,
      belongsHere: 'Es gehört hierher',
      belongsHereOf: (name) => `Es gehört hierher: ${name}`,
      moved: (count, plot, date) =>
        `${photos(count)} zu Parzelle ${plot}, ${formatDay(date, 'short')} gelegt.`,
      rules: 'Wie Fotos ihre Parzellen finden',
      patterns: 'Muster für Dateinamen, eines je Zeile',
      patternsHint: '{plot}, {date}, {time}, {place} und {any} werden gelesen; anderer Text steht für sich.',
      preview: 'Was aus den ersten Fotos gelesen wird',
      readPlot: (plot) => `Parzelle ${plot}`,
      readPlace: (place) => `Stelle ${place}`,
      orderTrusted:
        'Ich bin die Parzellen in dieser Reihenfolge gegangen und habe an jeder Stelle ein Foto aufgenommen',
      orderHint:
        'Dann gehen Fotos ohne Parzelle im Namen nach der Reihenfolge der Aufnahme. Die Reihenfolge allein sieht nicht, wenn zwei Parzellen vertauscht fotografiert wurden.',
    },

    calendar: {
      empty: 'Noch ist nichts geplant.',
      entries: 'Anwendungen und Bonituren nach Tag',
      noDay: 'noch kein Tag',
      application: (id, what, treatments) => `Anwendung ${id}: ${what} (Prüfglied ${treatments})`,
      rating: (id) => `Bonitur ${id}`,
      window: (first, last) => `${formatDay(first, 'short')} bis ${formatDay(last, 'short')}`,
      save: 'Als Kalenderdatei speichern',
      ratings: 'Boniturtermine',
      ratingId: 'Bonitur',
      timing: 'Zeitpunkt',
      ofRating: (label, id) => `${label}, Bonitur ${id}`,
      newRating: 'Neuer Boniturtermin',
      timingHint:
        'Ein Tag wie 2027-04-12, oder in englischer Schreibweise „5 weeks after sowing“, „2 weeks after application A2“ oder „stage 21“.',
      addRating: 'Boniturtermin hinzufügen',
      removeRating: (id) => `Bonitur ${id} entfernen`,
      weather: 'Wetter',
      noWeather:
        'Noch kein Wetter. Eine Tabelle hat die Spalte date und eine oder mehrere von air_c, soil_c, rain_mm.',
      weatherDays: (days, first, last) =>
        `${formatQuantity(days, 'Tag', 'Tage')}, ${formatDay(first, 'short')} bis ${formatDay(last, 'short')}.`,
      readWeather: 'Wetter einlesen (CSV)',
    },

    conditions: {
      open: 'Bedingungen',
      openOf: (id) => `Bedingungen der Bonitur ${id}`,
      title: (id) => `Bedingungen am Tag der Bonitur ${id}`,
      labels: {
        daysSinceMowing: 'Tage seit dem Mähen',
        dew: 'Tau',
        frost: 'Frost',
        sky: 'Himmel',
        turfGrowthStage: 'Entwicklungsstadium des Rasens',
        weedGrowthStage: 'Entwicklungsstadium des Ungrases',
        device: 'Kamera oder Telefon',
        notes: 'Notizen',
      },
      choices: {
        dew: { '': 'nicht notiert', true: 'ja', false: 'nein' },
        frost: { '': 'nicht notiert', true: 'ja', false: 'nein' },
        sky: {
          '': 'nicht notiert',
          clear: 'klar',
          'partly-cloudy': 'teils bewölkt',
          overcast: 'bedeckt',
        },
      },
    },

    scores: {
      enter: 'Bonituren eintragen',
      needs: 'Bonituren brauchen Parzellen (Lageplan) und Boniturtermine (Kalender).',
      variable: 'Was bonitiert wird',
      date: 'Boniturtermin',
      rater: 'Wer bonitiert',
      position: (position, of) => `${position} von ${of}`,
      plot: (plot) => `Parzelle ${plot}`,
      score: (variable, plot) => `${variable}, Parzelle ${plot}`,
      bounds: (least, most, unit) =>
        unit === `${least}-${most}` ? `${least} bis ${most}` : `${least} bis ${most} ${unit}`,
      previous: 'Zurück',
      next: 'Weiter',
      keep: 'Behalten',
      notRateable: 'Nicht zu bonitieren',
      wasNotRateable: 'Als nicht zu bonitieren notiert.',
      done: (done, of) =>
        `${done} von ${formatQuantity(of, 'Parzelle', 'Parzellen')} von dieser Person eingetragen.`,
      variables: 'Bonitierte Größen',
      removeVariable: (name) => `${name} entfernen`,
      addCommon: (name) => `${name} hinzufügen`,
      name: 'Name',
      unit: 'Einheit',
      least: 'Kleinster Wert',
      most: 'Größter Wert',
      step: 'Schritt',
      stepHint: 'Leer: jeder Wert zwischen den Grenzen.',
      better: 'Was besser ist',
      betters: { higher: 'höher', lower: 'niedriger', neither: 'keines' },
      addOwn: 'Eigene Größe hinzufügen',
    },

    frame: {
      title: 'Wohin der Rahmen kommt',
      needsPlotSize:
        'Tragen Sie zuerst unter Versuch die Parzellengröße ein: Stellen werden von einer Parzellenecke aus gemessen.',
      hint: 'Stellen werden über die Nettoparzelle ausgelost, auf ganze Zentimeter. Ecken heißen so, wie Sie sie sehen, wenn Sie vor Reihe 1 stehen.',
      labels: {
        placesPerPlot: 'Stellen je Parzelle',
        frameWidthMm: 'Rahmen, innere Breite (mm)',
        frameLengthMm: 'Rahmen, innere Länge (mm)',
        edgeMm: 'Kleinster Abstand vom Rand der Nettoparzelle (mm)',
        apartMm: 'Kleinster Abstand zwischen Rahmen (mm)',
        seed: 'Startzahl',
        draw: 'An jedem Termin',
        measuredFrom: 'Gemessen von der Ecke',
        markedFrameCorner: 'Markierte Ecke des Rahmens',
      },
      choices: {
        draw: { fixed: 'dieselben Stellen', 'each-date': 'neu ausgeloste Stellen' },
        measuredFrom: PLOT_CORNERS,
        markedFrameCorner: PLOT_CORNERS,
      },
      save: 'Stellen auslosen',
      drop: 'Stellen verwerfen',
      places: 'Stellen',
      print: 'Stellen drucken',
      measured: (corner) =>
        `Meter von der Ecke ${corner} der Bruttoparzelle bis zur nächsten Ecke des Rahmens.`,
      date: 'Boniturtermin',
      needsDate: 'Stellen werden für jeden Termin ausgelost: Fügen Sie im Kalender Boniturtermine hinzu.',
      table: 'Stellen des Rahmens nach Parzelle, in Gehreihenfolge',
      place: 'Stelle',
      across: 'Quer (m)',
      along: 'Längs (m)',
    },

    labels: {
      needsPlots: 'Etiketten brauchen Parzellen. Fügen Sie sie im Lageplan hinzu.',
      hint: 'Jedes Etikett trägt groß die Parzelle und einen QR-Code mit Versuch und Parzelle; kein Prüfglied steht darauf.',
      print: 'Etiketten drucken',
      sheet: 'Parzellenetiketten in Gehreihenfolge',
      qr: (plot) => `QR-Code von Parzelle ${plot}`,
    },

    records: {
      deviations: 'Abweichungen',
      noDeviations: 'Keine notiert.',
      plot: 'Parzelle',
      wholeTrial: 'ganzer Versuch',
      date: 'Tag',
      what: 'Was anders lief',
      effect: 'Wirkung auf die Ergebnisse',
      reason: 'Grund',
      addDeviation: 'Abweichung notieren',
      where: (plot, date) =>
        `${plot === null ? 'Ganzer Versuch' : `Parzelle ${plot}`}${date === null ? '' : `, ${formatDay(date, 'short')}`}`,
      deviation: (what, effect, reason) => `${what}. Wirkung: ${effect}. Grund: ${reason}.`,
      exclusions: 'Aus Auswertungen ausgelassen',
      exclusionsHint: 'Was ausgelassen ist, bleibt mit seinem Grund im Protokoll und im Bericht.',
      excludedPlot: 'Auszulassende Parzelle',
      excludedDate: 'Boniturtermin',
      allDates: 'alle Termine',
      variable: 'Klasse oder Größe',
      allVariables: 'alle',
      excludedReason: 'Grund, sie auszulassen',
      addExclusion: 'Auslassen',
      exclusion: (variable, reason) =>
        `${variable === null ? 'Alle Klassen und Größen' : variable}: ${reason}`,
      takeBack: 'Zurücknehmen',
      takeBackOf: (id) => `Ausschluss ${id} zurücknehmen`,
      takeBackDeviation: (id) => `Abweichung ${id} zurücknehmen`,
    },

    audit: {
      title: 'Jede Änderung',
      table: 'Änderungen des Versuchs, die neueste zuerst',
      newest: (shown, all) =>
        `Die neuesten ${shown} von ${all}; die ganze Liste steht im Export aller Daten.`,
      when: 'Wann',
      who: 'Wer',
      field: 'Feld',
      before: 'Vorher',
      after: 'Nachher',
      why: 'Warum',
      whole: 'der Versuch',
      record: 'Ganzer Datensatz',
    },
  },

  APPLICATION_CAUTION,
  EXPERIMENTAL_USE,

  fieldFaultText: faultWords,

  fieldProblemText: ({ field, value, ...fault }) =>
    `${field || 'Der Datensatz'} ${faultWords(fault as FieldFault, value)}`,

  tableProblemText: tableWords,

  layoutProblemText: layoutWords,

  planProblemText: planWords,

  planQueryText: (query) => {
    switch (query.code) {
      case 'rate-unlike-others':
        return `Die Aufwandmenge von ${query.product} in Anwendung ${query.application} ist das ${formatAmount(query.timesOthers)}-Fache ${query.others === 1 ? 'seiner anderen' : `seiner ${query.others} anderen`}. Stimmen Zahl und Einheit?`;
      case 'rate-of-other-kind':
        return `Die Aufwandmenge von ${query.product} in Anwendung ${query.application} steht in einer Einheit anderer Art (${query.kind}) als seine anderen (${query.usualKind}). Stimmt die Einheit?`;
      case 'no-untreated-control':
        return 'Kein Prüfglied ist als unbehandelte Kontrolle markiert; Wirkungsgrade lassen sich daher nicht berechnen. Ist das gemeint?';
      case 'application-on-control':
        return `Anwendung ${query.application} bringt ein Mittel auf Prüfglied ${query.treatment}, die unbehandelte Kontrolle. Ist das gemeint (eine Behandlung des ganzen Versuchs)?`;
      case 'name-twice':
        return `Die Prüfglieder ${andMore(query.treatments)} heißen gleich: „${query.name}“. Sind es verschiedene?`;
    }
  },

  planChangeQueryText: (query) => {
    switch (query.code) {
      case 'gap-rule-after-rating':
        return `Die Regel für kleine Lücken ändert sich nach der ersten Bonitur am ${formatDay(query.firstRating)}. Werte vorher und nachher hießen nicht dasselbe: Messen Sie die früheren Fotos neu, oder behalten Sie die Regel. Ist die Änderung gemeint?`;
      case 'class-removed-after-rating':
        return `Die Klasse „${query.class}“ wird nach der ersten Bonitur am ${formatDay(query.firstRating)} entfernt, deren Werte sie verwenden. Ist die Änderung gemeint?`;
      case 'treatment-moved-after-application':
        return `Parzelle ${query.plot} erhält ein anderes Prüfglied, obwohl Anwendung ${query.application} erledigt ist. Was gespritzt ist, bleibt gespritzt: Ist dies die Berichtigung eines Eintrags?`;
    }
  },

  trialPlanProblemText: (problem) => {
    switch (problem.code) {
      case 'plan-not-json':
        return `Die Datei ist kein JSON (${problem.detail}). Wählen Sie den Versuchsplan, wie dieses Programm ihn gespeichert hat.`;
      case 'plan-other-type':
        return `Die Datei sagt, sie sei ${met(problem.met)}; ein Versuchsplan sagt „${problem.expected}“. Wählen Sie die Plandatei.`;
      case 'plan-newer':
        return `Die Datei hat Version ${met(problem.version)}; bekannt ist ${problem.known}. Aktualisieren Sie das Programm, um sie zu öffnen; die Datei bleibt, wie sie ist.`;
      case 'plan-field': {
        const { field, value, ...fault } = problem.problem;
        return `${field || 'Der Datensatz'} ${faultWords(fault as FieldFault, value)}`;
      }
      case 'plan-contradiction':
        return planWords(problem.problem);
    }
  },

  importProblemText: (one) =>
    one.table === null ? planWords(one.problem) : `${TABLE_NAMES[one.table]}. ${tableWords(one.problem)}`,

  waitingForText: (waiting) => {
    switch (waiting.code) {
      case 'sowing-date':
        return 'wartet auf das Aussaatdatum';
      case 'growth-stage':
        return `wartet auf Entwicklungsstadium ${waiting.stage}`;
      case 'application':
        return `wartet auf Anwendung ${waiting.application}`;
      case 'unknown-application':
        return `wartet auf Anwendung ${waiting.application}, die dieser Versuch nicht hat`;
      case 'ring':
        return `wartet im Kreis: ${waiting.applications.join(', ')}`;
    }
  },

  calendarStateText: {
    done: 'erledigt',
    'left-out': 'ausgelassen',
    waiting: 'wartet',
    coming: 'steht bevor',
    'in-window': 'im Zeitfenster',
    due: 'heute fällig',
    overdue: 'überfällig',
  },

  temperatureVerdictText: (verdict) => {
    const { of, leastC, mostC, meanOfDays } = verdict.window;
    const own = `Ihrem Bereich von ${leastC} bis ${mostC} °C (${of === 'air' ? 'Luft' : 'Boden'}, Mittel aus ${formatQuantity(meanOfDays, 'Tag', 'Tagen')})`;
    if (verdict.verdict === 'unknown') return `Keine Wetterzeilen zu ${own}.`;
    const where = { below: 'unter', inside: 'in', above: 'über' }[verdict.verdict];
    return `${formatAmount(verdict.meanC)} °C am ${formatDay(verdict.day)}, ${where} ${own}.`;
  },

  calendarFileText: {
    applicationSummary: (id, treatments, description) =>
      `Anwendung ${id}: ${description} (Prüfglied ${andMore(treatments)})`,
    ratingSummary: (id) => `Bonitur ${id}`,
    window: (first, last) => `Vom ${formatDay(first)} bis ${formatDay(last)}.`,
    done: (day) => `Erledigt am ${formatDay(day)}.`,
    applicationCategory: 'Anwendung',
    ratingCategory: 'Bonitur',
    experimental: EXPERIMENTAL_USE,
    caution: APPLICATION_CAUTION,
  },

  lastApplicationText: (last) => {
    if (last === null) return 'Hier ist keine Anwendung als erledigt eingetragen.';
    const what = `Letzte Anwendung: ${andMore(last.products)} am ${formatDay(last.day)}${last.finishedAt === null ? '' : `, ${last.finishedAt}`}.`;
    if (last.enterFrom === null)
      return `${what} Keine Wiederbetretungsfrist ist eingetragen: Lesen Sie die Gebrauchsanleitung, bevor Sie die Parzelle betreten.`;
    return `${what} Nach der eingetragenen Wiederbetretungsfrist (${formatQuantity(last.reEntryHours!, 'Stunde', 'Stunden')}) ab ${formatDay(last.enterFrom.day)}, ${last.enterFrom.time}; die Gebrauchsanleitung entscheidet.`;
  },

  treatmentSummaryNotes: (summary) => {
    const notes = summary.repeats.map(
      ({ modeOfActionGroup, inARow }) =>
        `Wirkmechanismus ${modeOfActionGroup} wird ${inARow}-mal nacheinander verwendet.`,
    );
    if (summary.withoutModeOfAction.length > 0) {
      notes.push(`Kein Wirkmechanismus ist eingetragen für ${andMore(summary.withoutModeOfAction)}.`);
    }
    if (summary.withoutDay.length > 0) {
      notes.push(
        `Anwendungen noch ohne Tag sind in der Abfolge nicht gezählt: ${andMore(summary.withoutDay)}.`,
      );
    }
    if (summary.withoutCost.length > 0) {
      notes.push(`In den Kosten fehlen ${andMore(summary.withoutCost)}, ohne eingetragenen Preis.`);
    }
    for (const { limit, total, most, verdict, without } of summary.totals) {
      const sum = total === null ? 'unbekannt' : `${formatAmount(total)} ${most.unit}`;
      if (verdict === 'above') {
        notes.push(
          `${limit.name}: ${sum} in der Saison, mehr als die eingetragene Höchstmenge (${formatAmount(most.amount)} ${most.unit}).`,
        );
      }
      if (verdict === 'unknown') {
        notes.push(
          `${limit.name}: Summe ${sum}, ohne die Anwendungen ${andMore(without)}, deren Teil unbekannt ist.`,
        );
      }
    }
    return notes;
  },

  framePlacesProblemText: (problem) =>
    problem.code === 'frame-larger-than-plot'
      ? 'Der Rahmen passt mit diesem Abstand vom Rand nicht in die Nettoparzelle. Nehmen Sie einen kleineren Rahmen oder Abstand.'
      : `Von ${problem.asked} Stellen passen nur ${problem.found} so weit auseinander in die Parzelle. Nehmen Sie weniger Stellen oder kleinere Abstände.`,

  scoreProblemText: (problem) => {
    switch (problem.code) {
      case 'score-not-a-number':
        return 'Eine Bonitur ist eine Zahl.';
      case 'score-out-of-bounds':
        return `Bonituren liegen zwischen ${problem.least} und ${problem.most}.`;
      case 'score-between-steps':
        return `Bonituren gehen in Schritten von ${problem.step}: ${problem.below} oder ${problem.above}.`;
    }
  },

  labelProblemText: labelWords,
  nameProblemText: nameWords,

  patternProblemText: (problem) => {
    switch (problem.code) {
      case 'pattern-unknown-word':
        return `{${problem.word}} ist nicht bekannt. Wörter in Klammern sind ${problem.words.map((word) => `{${word}}`).join(', ')}.`;
      case 'pattern-word-twice':
        return `{${problem.word}} steht zweimal da. Verwenden Sie es einmal; {any} steht für den Rest.`;
      case 'pattern-brace-open':
        return `In „${problem.pattern}“ ist eine Klammer offen oder allein. Klammern stehen paarweise um ein Wort.`;
      case 'pattern-without-words':
        return 'Das Muster liest nichts. Setzen Sie {plot}, wo im Namen die Parzelle steht.';
    }
  },

  assignmentReasonText: (reason) => {
    switch (reason.code) {
      case 'by-label':
        return 'Sein Etikett wurde gelesen.';
      case 'by-file-name':
        return `Der Dateiname sagt es (${reason.pattern}).`;
      case 'by-walking-order':
        return `Gehreihenfolge: Foto ${reason.position} von ${reason.of} dieses Gangs. Die Reihenfolge allein sieht vertauscht fotografierte Parzellen nicht.`;
      case 'label-trouble':
        return labelWords(reason.problem);
      case 'file-name-trouble':
        return nameWords(reason.problem);
      case 'several-labels':
        return `Im Foto sind Etiketten mehrerer Parzellen: ${andMore(reason.plots)}. Wählen Sie die Parzelle im Rahmen.`;
      case 'label-against-file-name':
        return `Das Etikett sagt Parzelle ${reason.label}, der Dateiname ${reason.fileName}. Sehen Sie das Foto an.`;
      case 'order-says-otherwise':
        return reason.likelier === null
          ? `Es sagt Parzelle ${reason.said}, was nicht in die Reihenfolge des Gangs passt. Sehen Sie das Foto an.`
          : `Es sagt Parzelle ${reason.said}, nach der Reihenfolge des Gangs wäre es aber ${reason.likelier}. Sehen Sie das Foto an.`;
      case 'order-unclear':
        return `Nach der Reihenfolge des Gangs kann es ${andMore(reason.likely.map(({ plot, probability }) => `${plot} (${formatPercent(Math.min(1, probability))} %)`))} sein. In der Nähe fehlen Fotos oder Parzellen oder sind zu viel.`;
      case 'plot-missing-nearby':
        return `Parzelle ${reason.plot} hat kein Foto, und dieses wurde neben der Lücke aufgenommen: Vielleicht gehört es, außer der Reihe, zu ihr. Sehen Sie das Foto an.`;
      case 'order-not-confirmed':
        return 'Nur die Reihenfolge des Gangs sagt es. Sagen Sie, dass die Parzellen in dieser Reihenfolge gegangen wurden, oder wählen Sie die Parzelle von Hand.';
      case 'names-against-times':
        return 'Dateinamen und Zeiten sagen verschiedene Reihenfolgen, wie wenn Fotos zweier Kameras gemischt sind. Fügen Sie eine Kamera nach der anderen hinzu, oder wählen Sie die Parzelle von Hand.';
      case 'walk-too-long':
        return 'Dieser Gang ist zu lang, um seine Reihenfolge anzusehen. Fügen Sie seine Fotos in Teilen hinzu, oder wählen Sie die Parzelle von Hand.';
      case 'nothing-to-go-by':
        return 'Kein Etikett wurde gelesen, der Dateiname nennt keine Parzelle, und es gibt keine Reihenfolge. Wählen Sie die Parzelle von Hand.';
      case 'likely-no-plot':
        return 'Wahrscheinlich zeigt das Foto etwas anderes als eine Parzelle. Wählen Sie eine von Hand, wenn nicht.';
      case 'place-unclear':
        return `Welche der ${reason.places} Stellen der Parzelle es zeigt, ist nicht klar. Wählen Sie sie von Hand.`;
      case 'date-from': {
        const source = {
          label: 'vom Etikett',
          'file-name': 'aus dem Dateinamen',
          'capture-time': 'aus der Kamera',
          neighbours: 'aus den Fotos davor und danach',
          user: 'wie Sie gesagt haben',
        }[reason.source];
        return `Termin ${formatDay(reason.date)}, ${source}.`;
      }
      case 'date-unknown':
        return 'Das Foto hat keinen Tag. Sagen Sie, an welchem Tag diese Fotos aufgenommen wurden.';
      case 'dates-differ':
        return `Es hat verschiedene Tage: ${andMore(reason.dates.map((date) => formatDay(date)))}. Wählen Sie den richtigen.`;
      case 'no-rating-on-day':
        return reason.nearest === null
          ? `Es wurde am ${formatDay(reason.date)} aufgenommen, und der Versuch hat noch keine Boniturtermine. Fügen Sie den Termin hinzu.`
          : `Es wurde am ${formatDay(reason.date)} aufgenommen, keinem Boniturtermin dieses Versuchs; der nächste ist der ${formatDay(reason.nearest)}. Fügen Sie den Termin hinzu, oder prüfen Sie die Uhr der Kamera.`;
      case 'capture-time-unreadable':
        return `Die Kamera schrieb „${reason.written}“ als Zeit, was nicht sein kann. Sie blieb außer Acht.`;
      case 'same-file':
        return `Es ist Byte für Byte dieselbe Datei wie ${reason.as}.`;
      case 'same-place-and-date':
        return `Von derselben Stelle und demselben Termin gibt es auch ${andMore(reason.as)}. Wählen Sie eines, oder behalten Sie sie als Unterproben.`;
    }
  },

  RESULTS_CAUTION,

  archiveProblemText: (problem) => {
    switch (problem.code) {
      case 'not-a-zip':
        return 'Dies ist kein Archiv: Archive sind zip-Dateien, die dieses Programm schreibt. Wählen Sie eine andere Datei.';
      case 'cut-off':
        return 'Die Datei hat kein Ende: Sie wurde nur zum Teil heruntergeladen oder kopiert. Holen oder kopieren Sie sie noch einmal.';
      case 'zip-damaged':
        return problem.path === null
          ? `Die zip-Datei ist beschädigt (${problem.detail}). Holen oder kopieren Sie sie noch einmal.`
          : `${problem.path} ist beschädigt (${problem.detail}). Holen oder kopieren Sie das Archiv noch einmal.`;
      case 'foreign':
        return 'Diese zip-Datei enthält keinen Versuch dieses Programms. Wählen Sie ein Archiv, das hier im Bereich Bericht gespeichert wurde.';
      case 'newer-version':
        return `Das Archiv stammt von einer neueren Version dieses Programms (${problem.of} Version ${problem.met}; hier bekannt: ${problem.newest}). Aktualisieren Sie dieses Programm und öffnen Sie es noch einmal.`;
      case 'bad-manifest':
        return `Das Inhaltsverzeichnis des Archivs sagt etwas, was nicht sein kann${problem.field === '' ? '' : `, bei ${problem.field}`} (${problem.met}). Holen oder kopieren Sie es noch einmal.`;
      case 'too-many-files':
        return `Das Archiv enthält ${formatCount(problem.met)} Dateien; gelesen werden höchstens ${formatCount(problem.most)}. Speichern Sie den Versuch in Teilen, nach Boniturtermin.`;
      case 'unsafe-path':
        return `Das Archiv nennt eine Datei außerhalb seiner selbst („${problem.path}“). Dieses Programm schreibt so etwas nicht: Verwenden Sie es nicht.`;
      case 'path-twice':
        return `Das Archiv enthält „${problem.path}“ zweimal. Dieses Programm schreibt so etwas nicht: Verwenden Sie es nicht.`;
      case 'encrypted':
        return `„${problem.path}“ ist verschlüsselt. Entpacken Sie das Archiv mit seinem Passwort und wählen Sie die Datei darin.`;
      case 'too-large':
        return `„${problem.path}“ bräuchte ${formatBytes(problem.bytes)}; gelesen werden höchstens ${formatBytes(problem.mostBytes)}.`;
      case 'too-dense':
        return `„${problem.path}“ ist ${formatCount(problem.ratio)} zu 1 gepackt; gelesen wird höchstens ${formatCount(problem.most)} zu 1. Vielleicht soll es das Gerät füllen: Verwenden Sie es nicht.`;
      case 'file-missing':
        return `„${problem.path}“ steht im Inhaltsverzeichnis und ist nicht im Archiv.`;
      case 'file-unlisted':
        return `„${problem.path}“ ist im Archiv und steht nicht im Inhaltsverzeichnis; es bleibt beiseite.`;
      case 'file-changed':
        return `„${problem.path}“ ist nicht, was gespeichert wurde: Die Prüfsumme weicht ab. Holen oder kopieren Sie das Archiv noch einmal.`;
      case 'bad-table':
        return `Die Tabelle „${problem.path}“ ist nicht lesbar (${problem.detail}). Holen oder kopieren Sie das Archiv noch einmal.`;
    }
  },

  archiveText: {
    title: 'Dateien',
    opening: 'Wird geöffnet …',
    save: {
      title: 'Archiv speichern',
      intro:
        'Eine zip-Datei mit allem, die Fotos Byte für Byte. Sie öffnet sich hier auf jedem Gerät wieder, und ihre Werte lassen sich nach Jahren neu erzeugen.',
      what: 'Was gespeichert wird',
      whole: (count) => `Der ganze Versuch (${photos(count)})`,
      date: (date, count) =>
        date === null
          ? `Nur Fotos ohne Termin (${formatCount(count)})`
          : `Nur ${formatDay(date)} (${photos(count)})`,
      locations: 'Ortsangaben behalten, die Telefone in Fotos schreiben',
      locationsHint:
        'Ohne Haken werden sie aus den Kopien im Archiv genommen; die Fotos hier bleiben, wie sie sind, und das Archiv sagt es.',
      run: 'Archiv speichern',
      cancel: 'Abbrechen',
      progress: (done, all) => `${formatCount(done)} von ${photos(all)} geschrieben`,
      label: 'Stand des Schreibens',
      done: (count, bytes) => `Gespeichert: ${photos(count)}, ${formatBytes(bytes)}.`,
      placesTakenOut: (count) => `Aus ${photos(count)} wurden Ortsangaben genommen.`,
      withoutBytes: (names) =>
        `Der Browser hat ${photos(names.length)} nicht mehr: ${names.join(', ')}. Die Werte sind im Archiv, die Fotos nicht.`,
      changed: (names) =>
        `Die Bytes von ${photos(names.length)} sind nicht die aufgenommenen: ${names.join(', ')}. Vielleicht versagt das Gerät; behalten Sie die Originale.`,
      cancelled: 'Abgebrochen; nichts wurde gespeichert.',
      failed: (reason) => `Das Archiv konnte nicht geschrieben werden: ${reason}`,
      onlyHere: (count) =>
        count === 0
          ? 'Jedes Foto hier ist in einem Archiv gesichert.'
          : `${photos(count)} gibt es nur auf diesem Gerät.`,
      nothing: 'Noch gibt es nichts zu speichern: Planen Sie einen Versuch, oder fügen Sie Fotos hinzu.',
      fileName: 'archiv',
    },
    open: {
      title: 'Archiv öffnen',
      intro: 'Zuerst wird gezeigt, was es brächte. Nichts ändert sich, bis Sie es übernehmen.',
      choose: 'Archiv wählen',
      reading: (name) => `${name} wird angesehen …`,
      refused: (name, reason) => `${name} wurde nicht geöffnet; hier hat sich nichts geändert. ${reason}`,
      otherTrial: (here, there) =>
        `Es ist ein Archiv von „${there}“; hier ist „${here}“. Ein Browserprofil bearbeitet einen Versuch: Öffnen Sie es in einem anderen Profil, oder speichern und entfernen Sie erst diesen Versuch.`,
      head: (trial, createdAt) =>
        `${trial ?? 'Fotos ohne Versuch'}, gespeichert ${formatDay(createdAt.slice(0, 10))}`,
      part: (date, others) =>
        others.length === 0
          ? `Teil des Versuchs: ${dated(date)}.`
          : `Teil des Versuchs: ${dated(date)}. Nicht in dieser Datei: ${others.map(dated).join(', ')}.`,
      brings: 'Was es bringt',
      photosNew: (count) => `${photos(count)} hier neu`,
      photosContinued: (count) => `${photos(count)} dort weiterbearbeitet: werden übernommen`,
      photosBehind: (count) => `${photos(count)} hier weiterbearbeitet: nichts zu übernehmen`,
      photosSame: (count) => `${photos(count)} gleich`,
      plan: { new: 'Der Versuchsplan', continued: 'Dort gemachte Änderungen des Plans' },
      scoresNew: (count) => formatQuantity(count, 'Bonitur', 'Bonituren'),
      records: (count) =>
        `${formatQuantity(count, 'weiterer Datensatz', 'weitere Datensätze')} (Punkte, Modelle, Änderungen)`,
      nothingNew: 'Alles darin ist schon hier. Nichts zu übernehmen.',
      conflicts: (count) =>
        `${formatQuantity(count, 'Unterschied braucht', 'Unterschiede brauchen')} Ihre Entscheidung`,
      conflictsHint:
        'Beide Seiten wurden bearbeitet, und keine folgt aus der anderen. Was Sie nicht wählen, bleibt in seinem Archiv.',
      all: 'Für alle',
      here: 'Behalten, was hier ist',
      there: 'Aus dem Archiv nehmen',
      aspects: {
        place: 'Parzelle oder Termin',
        mask: 'Rahmen, Modell oder Korrekturen',
        strokes: 'Striche',
      },
      photoState: (state) => {
        const parts = [
          state.plot === null ? 'keine Parzelle' : `Parzelle ${state.plot}`,
          state.ratingDate === null ? 'kein Termin' : formatDay(state.ratingDate, 'short'),
          state.gestures === 0
            ? 'keine Korrekturen'
            : formatQuantity(state.gestures, 'Korrektur', 'Korrekturen'),
          ...(state.correctedBy ? [`zuletzt von ${state.correctedBy}`] : []),
          ...(state.strokes > 0 ? [strokes(state.strokes)] : []),
        ];
        return parts.join(', ');
      },
      planConflict: (fields) =>
        `Der Plan unterscheidet sich an ${formatQuantity(fields.length, 'Stelle', 'Stellen')}: ${fields.slice(0, 6).join(', ')}${fields.length > 6 ? ', …' : ''}`,
      planState: (changedAt) => `geändert ${formatDay(changedAt.slice(0, 10), 'short')}`,
      scoreConflict: (variable, plot, date) =>
        `Bonitur ${variable}, Parzelle ${plot}, ${formatDay(date, 'short')}`,
      scoreState: (value) => (value === null ? 'nicht zu bonitieren' : String(value)),
      weatherConflict: (days) => `Wetter von ${formatQuantity(days.length, 'Tag', 'Tagen')}`,
      who: 'Ihr Name, für das Änderungsprotokoll',
      run: 'Übernehmen',
      close: 'Lassen',
      progress: (done, all) => `${formatCount(done)} von ${photos(all)} übernommen`,
      label: 'Stand des Übernehmens',
      done: (count) => `Übernommen: ${photos(count)} neu.`,
      cancelled: 'Abgebrochen; hier hat sich nichts geändert.',
      failed: (reason) => `Nichts wurde übernommen: ${reason}`,
      full: 'im Speicher des Browsers ist kein Platz mehr. Schaffen Sie Platz auf dem Gerät und versuchen Sie es noch einmal.',
      missing: (names) => `Nicht im Archiv und ausgelassen: ${names.join(', ')}.`,
      damaged: (name, reason) => `${name} wurde ausgelassen. ${reason}`,
      leftOut: (count) =>
        `${formatQuantity(count, 'Datensatz des Archivs ist nicht lesbar und wird', 'Datensätze des Archivs sind nicht lesbar und werden')} ausgelassen.`,
      reason: (name) => `entschieden beim Übernehmen von ${name}`,
    },
    tables: {
      title: 'Tabellen für Statistikprogramme',
      intro:
        'Jede Tabelle als CSV mit einer Beschreibung aller Spalten und Einheiten (ein tabellarisches Datenpaket), und ein R-Skript, das den Vergleich neu rechnet.',
      run: 'Tabellen speichern',
      fileName: 'tabellen',
      failed: (reason) => `Die Tabellen konnten nicht geschrieben werden: ${reason}`,
      done: (count) => `Gespeichert: ${formatQuantity(count, 'Tabelle', 'Tabellen')}.`,
    },
  },

  chartText: {
    noValue: NO_VALUE,
    showTable: 'Als Tabelle zeigen',
    keys: (count) =>
      `Bild mit ${formatQuantity(count, 'Wert', 'Werten')}. Pfeiltasten gehen von Wert zu Wert, Pos1 und Ende zum ersten und letzten.`,
    hint: 'Pfeiltasten oder ein Zeiger zeigen einzelne Werte.',
    save: 'Bild speichern',
    saveAs: { svg: 'SVG', print: 'PNG für den Druck, 170 mm', slide: 'PNG für eine Folie, 16:9' },
    saveFailed: (reason) =>
      `Das Bild konnte nicht gespeichert werden: ${reason}. Versuchen Sie SVG, oder schaffen Sie Platz im Speicher, indem Sie andere Tabs schließen.`,

    treatment: 'Prüfglied',

    columns: {
      ratingDate: 'Boniturtermin',
      mean: (unit) => (unit ? `Mittel, ${unit}` : 'Mittel'),
      standardError: 'Standardfehler',
      low: 'Untere Grenze',
      high: 'Obere Grenze',
      n: 'Parzellen',
      letters: 'Buchstaben',
      plot: 'Parzelle',
      block: 'Block',
      row: 'Reihe',
      column: 'Spalte',
      value: (unit) => (unit ? `Wert, ${unit}` : 'Wert'),
      fitted: 'Angepasster Wert',
      residual: 'Residuum',
      quantile: 'Normalquantil',
      meanOfTwo: (unit) => `Mittel beider, ${unit}`,
      difference: (unit) => `Differenz, ${unit}`,
      item: 'Foto oder Parzelle',
      cover: 'Deckung',
    },

    spread: {
      'standard-error': 'Balken: Mittel ± Standardfehler.',
      interval: (percent) => `Balken: ${formatCount(percent)}-%-Intervall des Mittels.`,
      none: 'Keine Fehlerbalken: Ein Standardfehler ließ sich nicht berechnen.',
      some: (names) => `Kein Fehlerbalken: ${andMore(names)} (kein Standardfehler).`,
    },
    replicates: (fewest, most, manyDates) =>
      `n = ${fewest === most ? plots(most) : `${formatCount(fewest)} bis ${plots(most)}`} je Prüfglied${manyDates ? ' und Termin' : ''}.`,
    single:
      'n = 1 Parzelle je Prüfglied: Wie sehr sich Parzellen unterscheiden, ist unbekannt; daher gibt es keine Balken.',
    gaps: 'Lücken sind Werte, die nicht bonitiert wurden oder sich nicht berechnen ließen.',
    letters: 'Für Prüfglieder mit gemeinsamem Buchstaben ist kein Unterschied gezeigt.',
    lettersMissing: 'Keine Buchstaben: Die Auswertung gab keine.',

    meanWords: (mean, unit, day) => {
      const head = day === null ? mean.name : `${mean.name}, ${formatDay(day, 'short')}`;
      if (mean.mean === null) return `${head}: ${NO_VALUE}.`;
      const parts = [withUnit(mean.mean, unit)];
      if (mean.standardError !== null) parts.push(`Standardfehler ${oneDecimal(mean.standardError)}`);
      if (mean.low !== null && mean.high !== null)
        parts.push(`Intervall ${oneDecimal(mean.low)} bis ${oneDecimal(mean.high)}`);
      parts.push(plots(mean.n));
      if (mean.letters !== null && mean.letters !== '') parts.push(`Buchstaben ${mean.letters}`);
      return `${head}: ${parts.join(', ')}.`;
    },

    overTime: {
      caption: (name) => `${name}, Mittel jedes Prüfglieds an jedem Boniturtermin.`,
      neverRated: (names) => `An keinem Termin ein Wert: ${andMore(names)}.`,
      applications: 'Anwendungen',
      applied: 'Gefüllte Marken: erledigt; offene Marken: geplant.',
      applicationWords: (name, what, day, done) =>
        `${name}: ${what}, ${done ? 'erledigt' : 'geplant für'} ${formatDay(day, 'short')}.`,
      weather: 'Wetter',
      air: 'Luft',
      soil: 'Boden',
      rain: 'Regen',
      millimetres: 'mm je Tag',
      weatherCaption: 'Unten: Tagesmittel der Temperatur von Luft und Boden, und Regen.',
      sown: 'gesät',
      sideBySide: 'Punkte eines Termins stehen nebeneinander, damit Balken einander nicht verdecken.',
      weatherWords: (day, air, soil, rain) =>
        `${formatDay(day, 'short')}: Luft ${withUnit(air, '°C')}, Boden ${withUnit(soil, '°C')}, Regen ${withUnit(rain, 'mm')}.`,
    },

    bars: {
      caption: (name, day) =>
        day === null
          ? `${name}, Mittel jedes Prüfglieds.`
          : `${name} am ${formatDay(day)}, Mittel jedes Prüfglieds.`,
      fromTo: (mean, low, high) =>
        low === null || high === null
          ? oneDecimal(mean)
          : `${oneDecimal(mean)} (${oneDecimal(low)} bis ${oneDecimal(high)})`,
    },

    map: {
      caption: (name, day) =>
        `${name} am ${formatDay(day)} nach Parzelle, wie die Parzellen liegen; Reihe 1 ist vorn.`,
      inPlot: 'In jeder Parzelle ihr Wert; wo Platz ist, links ihr Name und rechts ihr Prüfglied.',
      hatched: (count) => `Schraffiert: nicht bonitiert (${plots(count)}).`,
      rated: (count) => `n = ${plots(count)}.`,
      words: (plot, treatment, block, value, unit) =>
        `Parzelle ${plot}, Prüfglied ${treatment}${block === null ? '' : `, Block ${block}`}: ${value === null ? 'nicht bonitiert' : withUnit(value, unit)}.`,
    },

    plotLines: {
      caption: (name) => `${name}: jede Parzelle (dünn) und das Mittel ihres Prüfglieds (dick).`,
      plotWords: (plot, day, value, unit) =>
        `Parzelle ${plot}, ${formatDay(day, 'short')}: ${withUnit(value, unit)}.`,
    },

    cost: {
      caption: (name, day) => `${name} am ${formatDay(day)} gegen die Kosten jedes Programms.`,
      axis: (currency) => `Kosten, ${currency} je Hektar`,
      unknown: (names) => `Nicht gezeichnet, Kosten oder Deckung unbekannt: ${andMore(names)}.`,
      words: (name, cost, rest) => `${name}: Kosten ${cost}; ${rest}`,
    },

    residuals: {
      fittedCaption:
        'Residuum jeder Parzelle gegen ihren angepassten Wert. Ein Fächer oder Bogen spricht gegen die Auswertung.',
      quantileCaption:
        'Residuen der Größe nach gegen die Quantile einer Normalverteilung. Punkte entlang der Linie sehen normal aus.',
      n: (n) => `n = ${plots(n)}.`,
      words: (plot, treatment, fitted, residual) =>
        `Parzelle ${plot}, Prüfglied ${treatment}: angepasst ${fitted}, Residuum ${residual}.`,
      quantileWords: (plot, treatment, quantile, residual) =>
        `Parzelle ${plot}, Prüfglied ${treatment}: Normalquantil ${quantile}, Residuum ${residual}.`,
    },

    agreement: {
      caption: (a, b) => `${a} minus ${b}, gegen das Mittel beider.`,
      bands: 'Linien: mittlere Differenz und Übereinstimmungsgrenzen; Bänder: ihre 95-%-Intervalle.',
      noLimits: 'Keine Übereinstimmungsgrenzen: weniger als zwei Paare.',
      n: (n) => `n = ${formatQuantity(n, 'Paar', 'Paare')}.`,
      axis: (a, b, unit) => `${a} minus ${b}, ${unit}`,
      meanAxis: (unit) => `Mittel beider, ${unit}`,
      meanDifference: 'Mittlere Differenz',
      upper: 'Obere Grenze',
      lower: 'Untere Grenze',
      bounds: (value, low, high) => `${oneDecimal(value)} (${oneDecimal(low)} bis ${oneDecimal(high)})`,
      words: (label, mean, difference, unit, unitOfDifference) =>
        `${label}: Differenz ${withUnit(difference, unitOfDifference)}, Mittel beider ${withUnit(mean, unit)}.`,
      points: 'Prozentpunkte',
    },

    matrix: {
      caption: 'Fotos nach Parzelle und Boniturtermin.',
      noPhoto: 'kein Foto',
      tooMany: (met, most) =>
        `ein Bild fasst bis zu ${formatCount(most)} Fotos, dieses hätte ${formatCount(met)}; zeigen Sie weniger Parzellen oder Termine`,
      cell: (plot, day, words) => `Parzelle ${plot}, ${formatDay(day, 'short')}: ${words}`,
      treatment: (treatment) => `Prüfglied ${treatment}`,
    },

    pair: {
      caption: (block, day) =>
        block === null
          ? `Zwei Parzellen am ${formatDay(day)}.`
          : `Zwei Parzellen von Block ${block} am ${formatDay(day)}.`,
      oneScale: 'Beide in einem Maßstab.',
      noScale: 'Maßstab unbekannt; Größen lassen sich daher nicht vergleichen.',
      plotAndWords: (plot, words) => `Parzelle ${plot}: ${words}`,
    },
  },
};
