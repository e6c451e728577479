import { startLanguage } from './language.ts';
import './styles/tokens.css';
import './styles/base.css';

// modules take their words when they are evaluated, so all others come after the language
startLanguage().then(() => import('./start.tsx'));
