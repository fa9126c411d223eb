#include "sim/app/exit_codes.hpp"

#include <exception>
#include <new>
#include <ostream>
#include <stdexcept>

#include "cases/reader.hpp"
#include "sim/app/commands.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::app {

namespace {

int complain(std::ostream& errors, int code, const char* before, const char* what) {
  errors << before << what;
  if (const std::string_view text(what); !text.ends_with('\n')) errors << '\n';
  errors.flush();
  return code;
}

}  // namespace

int guarded(const std::function<int()>& command, std::ostream& errors) noexcept {
  try {
    return command();
  } catch (const cases::CaseError& error) {
    return complain(errors, bad_input, "", error.what());
  } catch (const InputError& error) {
    return complain(errors, bad_input, "error: ", error.what());
  } catch (const sim::Stopped& error) {
    return complain(errors, stopped, "drumlin: ", error.what());
  } catch (const sim::NumericsError& error) {
    return complain(errors, no_solution, "numerical failure, nothing was written: ", error.what());
  } catch (const std::bad_alloc&) {
    return complain(errors, no_solution, "",
                    "out of memory, nothing was written; a coarser numerics.resolution or a "
                    "shorter numerics.window needs less");
  } catch (const std::exception& error) {
    return complain(errors, no_solution,
                    "error in drumlin itself, nothing was written: ", error.what());
  } catch (...) {
    return complain(errors, no_solution, "", "error in drumlin itself, nothing was written");
  }
}

}  // namespace drumlin::app
