fn main() {
    // Element handles let the tests find things by their accessible labels; a release needs none.
    let release = std::env::var("PROFILE").is_ok_and(|profile| profile == "release");
    let config = slint_build::CompilerConfiguration::new().with_debug_info(!release);
    if let Err(error) = slint_build::compile_with_config("app.slint", config) {
        eprintln!("{error}");
        std::process::exit(1);
    }
}
