import { describe, expect, test } from 'vitest';
import { markedReading } from '../../src/data-in/markedReadings.ts';

describe('an entry that is no plain number', () => {
  test.each(['<0.5', '<.5', '< 0,5', '≤0.7 mmol/L', 'Lo', 'LO'])(
    '"%s" lies below the range of a meter',
    (text) => {
      expect(markedReading(text, true)).toMatch(/below what the meter can show; leave it empty/);
      expect(markedReading(text, false)).toBeNull();
    },
  );

  test.each(['>25', '> 22.5', 'Hi', '≥ 25'])('"%s" lies above it', (text) => {
    expect(markedReading(text, true)).toMatch(/above what the meter can show/);
  });

  test.each(['1.2*', '1,2 *', '1.2?', '~1.2', '(1.2)', '1.2 (2nd drop)', '1.2†'])(
    '"%s" has a mark',
    (text) => {
      expect(markedReading(text, true)).toMatch(/mark that is not known here; give the number alone/);
    },
  );

  test.each(['low', 'x', '1.2 mmol', 'Louise', '<', '*', '1.2.3'])(
    '"%s" says nothing of the kind',
    (text) => {
      expect(markedReading(text, true)).toBeNull();
    },
  );
});
