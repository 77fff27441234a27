// Where a line may break, as the crate brings it, but for two dictionaries of 3 MB: those of words in
// Chinese and Japanese, and in Burmese, Khmer, Lao and Thai, which the app does not speak. A name in one
// of the latter is broken where the line ends, between two letters. The names of the files are the
// crate's: a version with others of them fails to build here.
include!(concat!(env!("CARGO_MANIFEST_DIR"), "/data/segmenter_break_grapheme_cluster_v1.rs.data"));
include!(concat!(env!("CARGO_MANIFEST_DIR"), "/data/segmenter_break_line_v1.rs.data"));
include!(concat!(env!("CARGO_MANIFEST_DIR"), "/data/segmenter_break_sentence_override_v1.rs.data"));
include!(concat!(env!("CARGO_MANIFEST_DIR"), "/data/segmenter_break_sentence_v1.rs.data"));
include!(concat!(env!("CARGO_MANIFEST_DIR"), "/data/segmenter_break_word_override_v1.rs.data"));
include!(concat!(env!("CARGO_MANIFEST_DIR"), "/data/segmenter_break_word_v1.rs.data"));

#[doc(hidden)]
#[macro_export]
macro_rules! __make_provider {
    ($provider:ty) => {
        impl $provider {
            #[allow(dead_code)]
            pub(crate) const MUST_USE_MAKE_PROVIDER_MACRO: () = ();
        }
        icu_provider::marker::impl_data_provider_never_marker!($provider);
    };
}
#[doc(inline)]
pub use __make_provider as make_provider;

#[doc(hidden)]
#[macro_export]
macro_rules! __no_dictionary {
    ($provider:ty, $marker:ident) => {
        impl icu_provider::DataProvider<icu::segmenter::provider::$marker> for $provider {
            fn load(
                &self,
                request: icu_provider::DataRequest,
            ) -> Result<
                icu_provider::DataResponse<icu::segmenter::provider::$marker>,
                icu_provider::DataError,
            > {
                let info = <icu::segmenter::provider::$marker as icu_provider::DataMarker>::INFO;
                Err(icu_provider::DataErrorKind::IdentifierNotFound.with_req(info, request))
            }
        }
    };
}

#[doc(hidden)]
#[macro_export]
macro_rules! __impl_segmenter_dictionary_auto_v2 {
    ($provider:ty) => {
        $crate::__no_dictionary!($provider, SegmenterDictionaryAutoV2);
    };
}
#[doc(inline)]
pub use __impl_segmenter_dictionary_auto_v2 as impl_segmenter_dictionary_auto_v2;

#[doc(hidden)]
#[macro_export]
macro_rules! __impl_segmenter_dictionary_extended_v2 {
    ($provider:ty) => {
        $crate::__no_dictionary!($provider, SegmenterDictionaryExtendedV2);
    };
}
#[doc(inline)]
pub use __impl_segmenter_dictionary_extended_v2 as impl_segmenter_dictionary_extended_v2;
