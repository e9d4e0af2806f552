import { prose, textField } from '#hourline';

const help = 'One figure for each rater, apart by spaces.';
export const leaves = textField({
  label: 'Lactate leaves its baseline at',
  value: '',
  help,
});
export const steep = textField({
  label: 'Lactate begins to rise steeply at',
  value: '',
  help,
});

export default [
  prose`
    Enter what each of you reads off. What comes of it stands
    at the end of the methods, under the eye.`,
  leaves,
  steep,
];
