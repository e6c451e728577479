import { browserFarewell, type Farewell } from '../../../src/app/measuring/farewell.ts';

/** Over a storage that holds one text. */
export function testFarewell(): Farewell {
  let text: string | null = null;
  const storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'> = {
    getItem: () => text,
    setItem(_name, value) {
      text = value;
    },
    removeItem() {
      text = null;
    },
  };
  return browserFarewell('test', storage);
}
