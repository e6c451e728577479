import { app } from '../../../core/text/app.ts';
import { AddingReport } from '../../components/AddingReport.tsx';
import { useAddPhotos } from '../../components/AddPhotos.tsx';
import { Button } from '../../components/Button.tsx';
import { FieldLink } from '../../components/FieldLink.tsx';
import { Icon } from '../../components/Icon.tsx';
import { OfflineWords } from '../../components/OfflineWords.tsx';
import { SampleTrialState, useSampleTrial } from './SampleTrialWay.tsx';
import styles from './StartScreen.module.css';

/** The first thing a new user sees: what this does, and the ways to begin. */
export function StartScreen() {
  const { choose, takePhoto, addSamples, adding } = useAddPhotos();
  const { taking, take, cancel } = useSampleTrial();
  const busy = adding.state === 'working' || taking.state === 'working';
  const { start } = app;
  return (
    <div className={styles.screen}>
      <div className={styles.words}>
        <h1>{start.title}</h1>
        <p className={styles.lead}>{start.sentence}</p>
        <div className={styles.ways}>
          <Button look="main" large disabled={busy} onClick={choose}>
            {start.open}
          </Button>
          <Button large disabled={busy} className={styles.camera} onClick={takePhoto}>
            <Icon name="camera" />
            {start.takePhoto}
          </Button>
          <Button large disabled={busy} onClick={take}>
            {start.sampleTrial}
          </Button>
        </div>
        <SampleTrialState taking={taking} cancel={cancel} />
        <FieldLink />
        <AddingReport />
        <ul className={styles.notes}>
          <li className={styles.drop}>{start.drop}</li>
          <li>{start.naming}</li>
          <li>{start.stays}</li>
        </ul>
        <div className={styles.sample}>
          <p>{start.sampleTrialHint}</p>
          <Button look="quiet" disabled={busy} onClick={addSamples}>
            {start.samples}
          </Button>
        </div>
        <OfflineWords className={styles.offline} />
      </div>
      <figure className={styles.picture}>
        <img src="./start.avif" alt={start.picture} width="600" height="600" fetchPriority="low" />
        <figcaption>{start.pictureCaption}</figcaption>
      </figure>
    </div>
  );
}
