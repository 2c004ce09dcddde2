// Prints each change that no test saw as it is found: an area takes long.
import { relative } from 'node:path';
import { declareValuePlugin, PluginKind } from '@stryker-mutator/api/plugin';

export const strykerPlugins = [
  declareValuePlugin(PluginKind.Reporter, 'asFound', {
    onMutantTested({ status, fileName, location, mutatorName, replacement }) {
      if (status !== 'Survived') return;
      const place = `${relative(process.cwd(), fileName)}:${location.start.line}:${location.start.column}`;
      console.log(`unseen ${place} ${mutatorName}: ${replacement}`);
    },
  }),
];
