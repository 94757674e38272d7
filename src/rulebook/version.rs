//! The version of a book: a hash of what its files say. In: paths and texts. Out: twelve letters and figures. Knows no rule.

use sha2::{Digest, Sha256};

/// How many letters of a hash name a version: enough for a million books without two alike by chance.
const LETTERS: usize = 12;

/// The version of a book: the same files, in whatever order, have the same.
pub fn version(files: &[(String, String)]) -> String {
    let mut lines: Vec<String> = files.iter().map(|(path, text)| format!("{} {path}\n", whole_hash(text))).collect();
    lines.sort();
    whole_hash(&lines.concat())[..LETTERS].to_string()
}

/// The name under which one file's text is kept.
pub fn hash(text: &str) -> String {
    whole_hash(text)[..LETTERS * 2].to_string()
}

/// SHA-256 of a text in hexadecimal. Source: FIPS 180-4; check: "abc" begins with ba7816bf.
fn whole_hash(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_hash_is_the_published_one_and_order_does_not_matter() {
        assert!(super::hash("abc").starts_with("ba7816bf8f01cfea414140de"));
        let (a, b) = (("a".to_string(), "1".to_string()), ("b".to_string(), "2".to_string()));
        assert_eq!(super::version(&[a.clone(), b.clone()]), super::version(&[b, a]));
    }
}
