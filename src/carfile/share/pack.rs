//! Packing with a dictionary: deflate (RFC 1951) that may refer back to words both ends know.
//!
//! The words are the invented cars' files, cut down, as they were when the version was made: their keys are every
//! car's, and a link to one of them with a lever moved takes next to nothing. They must never change, and are not
//! made from the cars of today: links are out there.

use miniz_oxide::DataFormat;
use miniz_oxide::deflate::core::{
    CompressionStrategy, CompressorOxide, TDEFLFlush, compress_to_output,
};
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress};

use super::TokenFault;

/// What both ends know.
const WORDS: &[u8] = include_bytes!("words-1.txt");

/// The most thorough search of the packer.
const LEVEL: u8 = 10;

/// How far back deflate may refer: 2^15 bytes.
const WINDOW_BITS: u8 = 15;

/// Unpacked bytes that are made room for at first; more is made as it is needed.
const ROOM: usize = 8192;

/// The text, packed. Short texts fare better with the code that deflate fixes, long ones with their own.
pub(super) fn pack(text: &[u8]) -> Vec<u8> {
    let [own, fixed] =
        [CompressionStrategy::Default, CompressionStrategy::Fixed].map(|it| packed_by(text, it));
    if own.len() < fixed.len() { own } else { fixed }
}

fn packed_by(text: &[u8], strategy: CompressionStrategy) -> Vec<u8> {
    let mut packer = CompressorOxide::with_params(DataFormat::Raw, LEVEL, strategy, WINDOW_BITS);
    // The packer has no door for known words. It remembers what went before, though, and after a flush what
    // comes next begins on a whole byte: pack the words, and keep only what follows them.
    compress_to_output(&mut packer, WORDS, TDEFLFlush::Sync, |_| true);
    let mut packed = Vec::new();
    compress_to_output(&mut packer, text, TDEFLFlush::Finish, |bytes| {
        packed.extend_from_slice(bytes);
        true
    });
    packed
}

/// The text that was packed, unless it has more bytes than `most`.
pub(super) fn unpack(packed: &[u8], most: usize) -> Result<Vec<u8>, TokenFault> {
    let most = WORDS.len() + most;
    let mut text = WORDS.to_vec();
    text.resize((text.len() + ROOM).min(most), 0);
    let mut unpacker = DecompressorOxide::new();
    let (mut read, mut written) = (0, WORDS.len());
    loop {
        let rest = packed.get(read..).unwrap_or_default();
        let flags = TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
        let (status, taken, made) = decompress(&mut unpacker, rest, &mut text, written, flags);
        read += taken;
        written += made;
        match status {
            TINFLStatus::Done if read == packed.len() => {
                text.truncate(written);
                return Ok(text.split_off(WORDS.len()));
            }
            TINFLStatus::HasMoreOutput if text.len() < most => {
                text.resize((2 * text.len()).min(most), 0);
            }
            TINFLStatus::HasMoreOutput => return Err(TokenFault::TooLong),
            _ => return Err(TokenFault::Damaged),
        }
    }
}
