/** What line boring asks to be measured or entered anew. */
import { lineBoring } from '../../core/shop/lineBoring.ts';
import type { Shop } from './shop.ts';
import { caution, type Input, known, type Sum, sum } from './sum.ts';

const GEOMETRY = 'geometry';

export function lineBoringSums(shop: Shop): Sum[] {
  const { lineBored, camAxis } = shop.doc.block;
  if (lineBored === undefined) return [];
  const rise: Input = { name: 'line bored by', dim: lineBored.rise, path: ['block', 'lineBored', 'rise'] };
  const enter = () => caution('enter it as the new value: the gaps go by what is entered');
  const beside = () =>
    caution('one bore offset holds for all banks: where banks differ, gaps across the bore are uncertain by this much');
  const banks = shop.layout.bankAnglesDeg.map((deg, k) => {
    const label = shop.layout.bankAnglesDeg.length === 1 ? '' : ` of bank ${k + 1}`;
    const bank = known(`bank angle${label}`, 'angle', deg);
    const rad = (deg * Math.PI) / 180;
    return [
      sum(
        {
          key: `deck height after line boring${label}`,
          formula: 'deck height − rise × cos(bank angle)',
          source: GEOMETRY,
          remark: enter,
        },
        [shop.block('deck height', 'deckHeight'), rise, bank],
        'fine length',
        (deck, up) => deck!.minus(lineBoring(up!.toNumber(), rad).alongBore),
      ),
      sum(
        {
          key: `bore offset after line boring${label}`,
          formula: 'bore offset + rise × sin(bank angle)',
          source: GEOMETRY,
          remark: beside,
        },
        [shop.block('bore offset', 'boreOffset'), rise, bank],
        'fine length',
        (offset, up) => offset!.plus(lineBoring(up!.toNumber(), rad).acrossBore),
      ),
    ];
  });
  if (camAxis === undefined) return banks.flat();
  const cam = sum(
    {
      key: 'crank to cam after line boring',
      formula: '√(across² + (height − rise)²)',
      source: GEOMETRY,
      remark: () => caution('chain or gears want the distance they were made for'),
    },
    [
      { name: 'cam axis across', dim: camAxis.across, path: ['block', 'camAxis', 'across'] },
      { name: 'cam axis height', dim: camAxis.height, path: ['block', 'camAxis', 'height'] },
      rise,
    ],
    'fine length',
    (across, height, up) => Math.hypot(across!.toNumber(), height!.minus(up!).toNumber()),
  );
  return [...banks.flat(), cam];
}
