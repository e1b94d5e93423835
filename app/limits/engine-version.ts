/**
 * The version of the judge. It is raised whenever the same case may be judged otherwise than before, so that a
 * judgement on file says which judge made it; one made by another version is not judged again to compare.
 */
export const ENGINE_VERSION = '4';
