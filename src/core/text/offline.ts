import { catalogue } from './catalogue.ts';

/** What the screens say about working without a network. */
export const offlineText = catalogue('offlineText', {
  title: 'Without a network',
  program: {
    none: 'This browser, or this address, cannot keep the program: it opens only with a network. Open it over https.',
    fetching: 'Being made ready for the field: wait until this line says so before you leave the network.',
    ready: 'Ready for the field: the program opens and works without a network on this device.',
    stopped: 'The program could not be kept on this device. It is tried again when the page is next opened.',
  },
  install:
    'Put it on the home screen or install it from the browser’s menu. Some phones clear what a site keeps when it was not installed and not used for some days.',
  update: 'A newer version is here. This page goes on with its own until you choose the new one.',
  takeUpdate: 'Use the new version',
} as const);
