/** The demo builds that come with the program. */
import bench from '../../assets/demos/bench-rig.json?raw';
import launch from '../../assets/demos/lake-launch-six.json?raw';
import quarry from '../../assets/demos/quarry-v8.json?raw';

export interface Demo {
  /** In the address: `?demo=quarry-v8`. */
  readonly key: string;
  readonly label: string;
  readonly text: string;
}

export const DEMOS: readonly Demo[] = [
  { key: 'quarry-v8', label: 'Demo V8, inches', text: quarry },
  { key: 'lake-launch-six', label: 'Demo six, mm', text: launch },
  { key: 'bench-rig', label: 'Demo single, teaching', text: bench },
];
