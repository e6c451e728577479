import { startLanguage } from './language.ts';
import { startUnitSystem } from './unitSystem.ts';
import './styles/tokens.css';
import './styles/base.css';

startUnitSystem();
// modules take their words when they are evaluated, so all others come after the language
startLanguage().then(() => import('./start.tsx'));
