import type { PhotoOrder } from './photoOrder.ts';
import { oneOf, usePreference } from './usePreference.ts';

const isOrder = oneOf<PhotoOrder>('date', 'plot');

/** The order of the photos that the person chose; the Cover screen turns its pages in the same one. */
export const usePhotoOrder = () => usePreference<PhotoOrder>('photos.order', 'date', isOrder);
