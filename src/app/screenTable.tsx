import { type ComponentType, lazy } from 'react';
import { app } from '../core/text/app.ts';

/** A screen that is fetched when it is first wanted, or when the page has nothing better to do. */
interface ScreenEntry {
  readonly id: string;
  readonly label: string;
  /** Route, in the notation of wouter. */
  readonly path: string;
  /** Where the navigation leads; null for a screen that is reached from another. */
  readonly href: string | null;
  /** Nothing to show before there are photos. */
  readonly needsPhotos: boolean;
  readonly Screen: ComponentType<{ params: Record<string, string | undefined> }>;
  readonly fetch: () => Promise<unknown>;
}

type ScreenOf = ScreenEntry['Screen'];

function screen(entry: Omit<ScreenEntry, 'Screen' | 'fetch'>, load: () => Promise<ScreenOf>): ScreenEntry {
  return { ...entry, Screen: lazy(async () => ({ default: await load() })), fetch: load };
}

/** All screens but the start screen, in the order of the work. */
export const SCREENS: readonly ScreenEntry[] = [
  screen(
    { id: 'plan', label: app.navigation.plan, path: '/plan/:part?', href: '/plan', needsPhotos: false },
    async () => (await import('./screens/plan/PlanScreen.tsx')).PlanScreen,
  ),
  screen(
    { id: 'photos', label: app.navigation.photos, path: '/photos', href: '/photos', needsPhotos: true },
    async () => (await import('./screens/photos/PhotosScreen.tsx')).PhotosScreen,
  ),
  screen(
    {
      id: 'cover',
      label: app.navigation.cover,
      path: '/cover/:id?/:mode?',
      href: '/cover',
      needsPhotos: true,
    },
    async () => (await import('./screens/cover/CoverScreen.tsx')).CoverScreen,
  ),
  screen(
    { id: 'field', label: app.field.open, path: '/field/:date?', href: null, needsPhotos: false },
    async () => (await import('./screens/field/FieldScreen.tsx')).FieldScreen,
  ),
  screen(
    { id: 'review', label: app.navigation.review, path: '/review/:date?', href: null, needsPhotos: true },
    async () => (await import('./screens/cover/review/ReviewScreen.tsx')).ReviewScreen,
  ),
  screen(
    {
      id: 'points',
      label: app.navigation.points,
      path: '/points/:part?',
      href: '/points',
      needsPhotos: true,
    },
    async () => (await import('./screens/points/PointsScreen.tsx')).PointsScreen,
  ),
  screen(
    {
      id: 'compare',
      label: app.navigation.compare,
      path: '/compare/:part?',
      href: '/compare',
      needsPhotos: false,
    },
    async () => (await import('./screens/compare/CompareScreen.tsx')).CompareScreen,
  ),
  screen(
    {
      id: 'report',
      label: app.navigation.report,
      path: '/report/:part?',
      href: '/report',
      needsPhotos: false,
    },
    async () => (await import('./screens/report/ReportScreen.tsx')).ReportScreen,
  ),
];
